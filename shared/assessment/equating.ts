/** What a total on one variant is worth on another, where enough sat both. */
import { mean, sampleStandardDeviation } from 'simple-statistics';
import { figure, isLevel, none, type Figure } from './figure.ts';

/** Sitters on each variant below which nothing is equated: the error would be as large as what it mends. */
export const enoughForEquating = 50;

/** A line that turns totals on X into totals on Y. */
export interface Equating {
	readonly slope: number;
	readonly intercept: number;
	/** Mean on Y less mean on X: what to add where the slope is taken as 1 (mean equating). */
	readonly shift: number;
	/** Of either form: sitters, mean and standard deviation of totals. */
	readonly x: Form;
	readonly y: Form;
}

export interface Form {
	readonly sitters: number;
	readonly mean: number;
	readonly sd: number;
}

/**
 * Linear equating of random groups: y = (sy / sx)(x - mx) + my.
 *
 * Limit: supposes that the two groups are alike but for chance, and that the forms measure the same equally well.
 * @param x, y totals of those who sat either variant
 * @see Kolen and Brennan, Test Equating, Scaling, and Linking (from memory); checked in tests/published/equating.test.ts
 */
export function equating(x: readonly number[], y: readonly number[]): Figure<Equating> {
	const fewest = Math.min(x.length, y.length);
	if (fewest < enoughForEquating) {
		return none(
			`Totals are not turned into each other below ${enoughForEquating} sitters on each variant; the fewest here are ${fewest}. ` +
				'What was predicted of the variants is shown instead.'
		);
	}
	if (isLevel(x) || isLevel(y)) return none('All sitters of a variant have the same total.');
	const [from, to] = [formOf(x), formOf(y)];
	const slope = to.sd / from.sd;
	return figure({ slope, intercept: to.mean - slope * from.mean, shift: to.mean - from.mean, x: from, y: to });
}

const formOf = (totals: readonly number[]): Form => ({
	sitters: totals.length,
	mean: mean([...totals]),
	sd: sampleStandardDeviation([...totals])
});

/** What a total on X is worth on Y [marks]; beyond the ends of the scale it is not cut. */
export const equated = ({ slope, intercept }: Equating, total: number): number => slope * total + intercept;

/**
 * Standard error of an equated total [marks], for totals that are near normal: sy sqrt((1 / nx + 1 / ny)(1 + z^2 / 2)), z = (x - mx) / sx.
 * @see Kolen 1985, Applied Psychological Measurement 9, 209-223 (from memory); checked in tests/published/equating.test.ts
 */
export function equatingError({ x, y }: Equating, total: number): number {
	const deviate = (total - x.mean) / x.sd;
	return y.sd * Math.sqrt((1 / x.sitters + 1 / y.sitters) * (1 + deviate ** 2 / 2));
}
