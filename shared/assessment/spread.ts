/** How unlike variants are by what was predicted of them, and which faults they share. */
import { mean } from 'simple-statistics';
import type { CalloutItem, Difficulty } from './variant.ts';

/** What variants are made alike in, most telling first. */
export const measures = ['cost', 'bits', 'minutes'] as const;
export type Measure = (typeof measures)[number];

export type Totals = Readonly<Record<Measure, number>>;

export interface SpreadOf {
	readonly least: number;
	readonly most: number;
	readonly mean: number;
	/** Between the most and the least. */
	readonly difference: number;
	/** That, as a share of the mean; 0 where the mean is. */
	readonly share: number;
}

export interface Spread {
	/** Over a variant's callouts, by variant. */
	readonly totals: readonly Totals[];
	readonly by: Readonly<Record<Measure, SpreadOf>>;
	/** The greatest share of the three. */
	readonly share: number;
}

export const totalsOf = (items: readonly { readonly difficulty: Difficulty }[]): Totals => ({
	cost: items.reduce((sum, { difficulty }) => sum + difficulty.cost, 0),
	bits: items.reduce((sum, { difficulty }) => sum + difficulty.bits, 0),
	minutes: items.reduce((sum, { difficulty }) => sum + difficulty.minutes, 0)
});

/**
 * Totals of cost, entropy and minutes by variant, and how far they lie apart. Drills are not in it: every variant has the same.
 * @param variants callouts by variant, at least one
 * @throws RangeError where there is no variant
 */
export function spreadOf(variants: readonly (readonly CalloutItem[])[]): Spread {
	if (variants.length === 0) throw new RangeError('there is no variant');
	const totals = variants.map(totalsOf);
	const [cost, bits, minutes] = measures.map((measure) => spreadIn(totals.map((one) => one[measure])));
	return { totals, by: { cost, bits, minutes }, share: Math.max(cost.share, bits.share, minutes.share) };
}

function spreadIn(values: readonly number[]): SpreadOf {
	const least = Math.min(...values);
	const most = Math.max(...values);
	const middle = mean([...values]);
	return { least, most, mean: middle, difference: most - least, share: middle === 0 ? 0 : (most - least) / middle };
}

/**
 * Items by slot that hide a fault which another variant hides in the same place, so that who has seen the one knows the other.
 * @param variants callouts by variant, then by slot
 */
export function sharingBySlot(variants: readonly (readonly CalloutItem[])[]): number[] {
	return (variants[0] ?? []).map((_, slot) => {
		const faults = variants.map((items) => `${items[slot].family}/${items[slot].fault}`);
		return faults.filter((fault) => faults.indexOf(fault) !== faults.lastIndexOf(fault)).length;
	});
}
