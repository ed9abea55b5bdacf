/** What the marks of a paper that was sat say of its items and of the paper itself. */
import { mean, sampleStandardDeviation } from 'simple-statistics';
import { shareOf, type Share } from '#shared/quantity/wilson.ts';
import { discrimination, type Discrimination } from './correlation.ts';
import { distributionOf, type Band } from './distribution.ts';
import { none, type Figure } from './figure.ts';
import { alphaWithout, reliability, type Reliability } from './reliability.ts';

/** Sitters from which a facility is told. */
export const enoughForFacility = 10;

export interface ItemFigures {
	readonly slot: number;
	readonly outOf: number;
	/** Mean share of the item's marks, with Wilson's interval. Marks in part vary less than right or wrong do: the interval is then too wide. */
	readonly facility: Figure<Share>;
	readonly discrimination: Figure<Discrimination>;
	readonly alphaWithout: Figure<number>;
}

export interface PaperFigures {
	readonly sitters: number;
	readonly outOf: number;
	/** Of totals [marks]; null where nobody sat, and for the deviation below two sitters. */
	readonly mean: number | null;
	readonly sd: number | null;
	readonly distribution: readonly Band[];
	readonly reliability: Figure<Reliability>;
	readonly items: readonly ItemFigures[];
}

/**
 * Classical item statistics. A slot counts as one item over all variants, since its callouts are made alike; give the rows of one variant
 * for that variant's own.
 * @param rows  marks by sitter and slot, as they stand after moderation; 0 for what was not tried
 * @param outOf marks that each slot is out of, > 0
 * @throws RangeError for a row that is not as long as the paper, or a mark outside of 0 to what it is out of
 */
export function itemStatistics(rows: readonly (readonly number[])[], outOf: readonly number[]): PaperFigures {
	refuseWrongMarks(rows, outOf);
	const full = sum(outOf);
	const totals = rows.map(sum);
	return {
		sitters: rows.length,
		outOf: full,
		mean: totals.length === 0 ? null : mean(totals),
		sd: totals.length < 2 ? null : sampleStandardDeviation(totals),
		distribution: full > 0 ? distributionOf(totals, full) : [],
		reliability: reliability(rows),
		items: outOf.map((most, slot) => itemFigures(rows, totals, slot, most))
	};
}

function itemFigures(rows: readonly (readonly number[])[], totals: readonly number[], slot: number, outOf: number): ItemFigures {
	const marks = rows.map((row) => row[slot]);
	return {
		slot,
		outOf,
		facility: facilityOf(marks, outOf),
		discrimination:
			rows[0]?.length === 1
				? none('The paper has no other item.')
				: discrimination(
						marks,
						totals.map((total, sitter) => total - marks[sitter])
					),
		alphaWithout: alphaWithout(rows, slot)
	};
}

function facilityOf(marks: readonly number[], outOf: number): Figure<Share> {
	if (marks.length < enoughForFacility) return none(`Told from ${enoughForFacility} sitters.`);
	// Sums of marks may end a hair above what they are out of.
	const cases = Math.min(marks.length, sum(marks) / outOf);
	return { value: shareOf(cases, marks.length), why: null };
}

const sum = (values: readonly number[]) => values.reduce((all, one) => all + one, 0);

function refuseWrongMarks(rows: readonly (readonly number[])[], outOf: readonly number[]): void {
	for (const row of rows) {
		if (row.length !== outOf.length) throw new RangeError(`a sitter has ${row.length} marks in a paper of ${outOf.length} slots`);
		const wrong = row.findIndex((marks, slot) => !(marks >= 0 && marks <= outOf[slot]));
		if (wrong >= 0) throw new RangeError(`marks from 0 to ${outOf[wrong]} are expected, not ${row[wrong]}`);
	}
}
