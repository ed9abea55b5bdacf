/** How far one item goes with the others. */
import { sampleCorrelation } from 'simple-statistics';
import { z95 } from '#shared/quantity/wilson.ts';
import { figure, isLevel, leastDifference, none, type Figure, type Interval } from './figure.ts';

/** Sitters from which a correlation is taken at its word; below, it is shown in grey. */
export const enoughForCorrelation = 30;

export interface Discrimination {
	/** Correlation of the item's marks with those of all other items together, -1 to 1. */
	readonly r: number;
	readonly interval: Figure<Interval>;
	/** Too few sat it to rest anything on this. */
	readonly greyed: boolean;
}

/**
 * Interval of a correlation by Fisher's transformation: tanh(atanh(r) +/- z / sqrt(n - 3)).
 *
 * Limit: made for marks that are near normal; for marks of two values it is a guide.
 * @param n pairs, whole number
 * @returns none below four pairs, and of marks that lie on a line: no interval of that kind has any width there
 * @see Fisher 1921, Metron 1, 3-32 (from memory); checked in tests/published/item-statistics.test.ts
 */
export function fisherInterval(r: number, n: number): Figure<Interval> {
	if (n < 4) return none('No interval below four sitters.');
	if (1 - Math.abs(r) < leastDifference) return none('No interval where marks go together without exception.');
	const half = z95 / Math.sqrt(n - 3);
	return figure({ low: Math.tanh(Math.atanh(r) - half), high: Math.tanh(Math.atanh(r) + half) });
}

/**
 * Corrected item-total correlation: the item against the total without it. An item in its own total would go with itself, three times too
 * well on a short paper.
 * @param item marks by sitter
 * @param rest marks in all other items, by sitter
 */
export function discrimination(item: readonly number[], rest: readonly number[]): Figure<Discrimination> {
	if (item.length < 2) return none('At least two sitters are needed.');
	if (isLevel(item)) return none('All sitters have the same mark here.');
	if (isLevel(rest)) return none('All sitters have the same marks in everything else.');
	const r = Math.min(1, Math.max(-1, sampleCorrelation([...item], [...rest])));
	return figure({ r, interval: fisherInterval(r, item.length), greyed: item.length < enoughForCorrelation });
}
