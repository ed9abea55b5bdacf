/** Whether variants came out as hard as each other for those who sat them. */
import { mean, sampleStandardDeviation } from 'simple-statistics';
import { figure, isLevel, none, type Figure, type Interval } from './figure.ts';
import type { Totals } from './spread.ts';
import { t95, welchFreedom } from './student.ts';

/** Sitters of a variant, and of all others, from which they are compared. */
export const enoughForComparison = 10;

/** A variant that was sat. */
export interface SatVariant {
	/** From 1. */
	readonly number: number;
	/** Totals of its sitters [marks]. */
	readonly totals: readonly number[];
	/** Of its callouts, as predicted; null for a paper without any. */
	readonly predicted: Totals | null;
}

export interface Difference {
	/** Mean of this variant's sitters less that of all others' [marks]. */
	readonly difference: number;
	readonly standardError: number;
	readonly interval: Interval;
	/** Whether the interval leaves out 0. Of twenty fair variants about one is expected to, by chance. */
	readonly stands: boolean;
}

export interface VariantFairness {
	readonly number: number;
	readonly sitters: number;
	readonly mean: number | null;
	readonly sd: number | null;
	readonly fromOthers: Figure<Difference>;
	readonly predicted: Totals | null;
}

/**
 * Each variant against all others together. Sitters are given variants without regard to what they know, so a difference beyond its error
 * speaks of the variant, or of chance.
 */
export function fairness(variants: readonly SatVariant[]): VariantFairness[] {
	return variants.map(({ number, totals, predicted }) => ({
		number,
		sitters: totals.length,
		mean: totals.length === 0 ? null : mean([...totals]),
		sd: totals.length < 2 ? null : sampleStandardDeviation([...totals]),
		fromOthers: differenceOf(
			totals,
			variants.filter((other) => other.number !== number).flatMap((other) => other.totals)
		),
		predicted
	}));
}

/**
 * Difference of two means with its standard error, sqrt(s1^2 / n1 + s2^2 / n2), and Welch's interval by Student's t.
 *
 * Limit: made for totals that are near normal: of fair variants five in a hundred stand out. Where marks lie far to one side it is four to
 * seven in a hundred with these few (counted in tests/core/assessment/fair-variants.test.ts).
 * @see Welch 1947, Biometrika 34, 28-35 (from memory); checked in tests/published/student.test.ts
 */
export function differenceOf(these: readonly number[], others: readonly number[]): Figure<Difference> {
	if (Math.min(these.length, others.length) < enoughForComparison) {
		return none(`Told from ${enoughForComparison} sitters of this variant and ${enoughForComparison} of others.`);
	}
	if (isLevel(these) && isLevel(others)) return none('All sitters of a variant have the same total.');
	const difference = mean([...these]) - mean([...others]);
	const deviations = [sampleStandardDeviation([...these]), these.length, sampleStandardDeviation([...others]), others.length] as const;
	const standardError = differenceError(...deviations);
	const half = t95(welchFreedom(...deviations)) * standardError;
	const interval = { low: difference - half, high: difference + half };
	return figure({ difference, standardError, interval, stands: interval.low > 0 || interval.high < 0 });
}

/** Standard error of the difference of two means. @param sdA, sdB standard deviations @param nA, nB numbers of sitters, > 0 */
export const differenceError = (sdA: number, nA: number, sdB: number, nB: number): number => Math.sqrt(sdA ** 2 / nA + sdB ** 2 / nB);
