/** How far a total would come out the same with other items of the same kind. */
import { sampleStandardDeviation, sampleVariance } from 'simple-statistics';
import { z95 } from '#shared/quantity/wilson.ts';
import { figure, isLevel, leastDifference, none, type Figure, type Interval } from './figure.ts';

export interface Reliability {
	/** Coefficient alpha, at most 1; below 0 where items contradict each other. */
	readonly alpha: number;
	readonly interval: Figure<Interval>;
	/** Standard error of measurement [marks]: how far a sitter's total lies from what it would be on average over many such papers. */
	readonly standardError: number;
}

const totalOf = (row: readonly number[]) => row.reduce((sum, marks) => sum + marks, 0);
const column = (rows: readonly (readonly number[])[], item: number) => rows.map((row) => row[item]);

/**
 * Coefficient alpha: k / (k - 1) (1 - sum of the items' variances / variance of the total), all with the same divisor. For items that are
 * right or wrong it is the Kuder-Richardson coefficient 20.
 * @param rows marks by sitter and item, each row as long
 * @see Cronbach 1951, Psychometrika 16, 297-334 (from memory); checked in tests/published/item-statistics.test.ts
 */
export function alphaOf(rows: readonly (readonly number[])[]): Figure<number> {
	const items = rows[0]?.length ?? 0;
	if (rows.length < 2) return none('At least two sitters are needed.');
	if (items < 2) return none('At least two items are needed.');
	const totals = rows.map(totalOf);
	if (isLevel(totals)) return none('All sitters have the same total.');
	const own = Array.from({ length: items }, (_, item) => sampleVariance(column(rows, item))).reduce((sum, one) => sum + one, 0);
	return figure((items / (items - 1)) * (1 - own / sampleVariance(totals)));
}

/**
 * Interval of alpha: ln(1 - alpha) +/- z sqrt(2k / ((k - 1)(n - 2))).
 *
 * Limit: supposes items of like variance that go together alike; for callouts and drills in one paper it is a guide.
 * @param items  k, >= 2
 * @param sitters n
 * @returns none below three sitters, and for an alpha of 1, where no interval of that kind has any width
 * @see Bonett 2002, Journal of Educational and Behavioral Statistics 27, 335-340 (from memory); checked in tests/published/item-statistics.test.ts
 */
export function bonettInterval(alpha: number, items: number, sitters: number): Figure<Interval> {
	if (sitters < 3) return none('No interval below three sitters.');
	if (1 - alpha < leastDifference) return none('No interval where items agree without exception.');
	const half = z95 * Math.sqrt((2 * items) / ((items - 1) * (sitters - 2)));
	return figure({ low: 1 - (1 - alpha) * Math.exp(half), high: 1 - (1 - alpha) * Math.exp(-half) });
}

/** Alpha with its interval and the standard error of measurement, SD sqrt(1 - alpha). @param rows marks by sitter and item */
export function reliability(rows: readonly (readonly number[])[]): Figure<Reliability> {
	const alpha = alphaOf(rows);
	if (alpha.value === null) return alpha;
	return figure({
		alpha: alpha.value,
		interval: bonettInterval(alpha.value, rows[0].length, rows.length),
		standardError: sampleStandardDeviation(rows.map(totalOf)) * Math.sqrt(Math.max(0, 1 - alpha.value))
	});
}

/** Alpha of all other items: where it is higher than that of all, the item does not go with the rest. */
export function alphaWithout(rows: readonly (readonly number[])[], item: number): Figure<number> {
	if ((rows[0]?.length ?? 0) < 3) return none('At least three items are needed.');
	return alphaOf(rows.map((row) => row.toSpliced(item, 1)));
}
