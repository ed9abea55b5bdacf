/** How totals are spread over what could be got. */
export interface Band {
	/** [marks]; from here, and up to but without `to`. The last holds full marks. */
	readonly from: number;
	readonly to: number;
	readonly count: number;
}

/** Bands of a paper's marks. */
const usualBands = 10;

/**
 * Counts in bands of equal width from 0 to full marks.
 * @param outOf full marks, > 0
 * @param bands how many
 * @throws RangeError for a total outside of 0 to full marks
 */
export function distributionOf(totals: readonly number[], outOf: number, bands = usualBands): Band[] {
	const wrong = totals.find((total) => !(total >= 0 && total <= outOf));
	if (wrong !== undefined) throw new RangeError(`a total from 0 to ${outOf} is expected, not ${wrong}`);
	const bandOf = (total: number) => Math.min(bands - 1, Math.floor((total * bands) / outOf));
	return Array.from({ length: bands }, (_, band) => ({
		from: (band * outOf) / bands,
		to: ((band + 1) * outOf) / bands,
		count: totals.filter((total) => bandOf(total) === band).length
	}));
}
