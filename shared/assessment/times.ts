/** How long items of a paper were worked at. */
import { quantile } from 'simple-statistics';

export interface ItemTimes {
	readonly slot: number;
	/** Sitters who began it. */
	readonly begun: number;
	/** Of those [minutes]: half lie below the median, a quarter below the lower and above the upper quartile. Null where nobody began it. */
	readonly median: number | null;
	readonly lower: number | null;
	readonly upper: number | null;
}

/**
 * @param minutes by sitter and slot, on whichever clock; null for what was not begun
 * @param slots   how many
 */
export function timesOf(minutes: readonly (readonly (number | null)[])[], slots: number): ItemTimes[] {
	return Array.from({ length: slots }, (_, slot) => {
		const begun = minutes.flatMap((sitter) => sitter[slot] ?? []);
		if (begun.length === 0) return { slot, begun: 0, median: null, lower: null, upper: null };
		const [lower, median, upper] = quantile(begun, [0.25, 0.5, 0.75]);
		return { slot, begun: begun.length, median, lower, upper };
	});
}
