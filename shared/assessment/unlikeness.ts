/** How unlike the variants of a choice are, and what they tell of each other: both to be made small. The weights are judgements of ours. */
import { measures } from './spread.ts';
import type { CalloutItem } from './variant.ts';

/** Against the variants' totals, which weigh 1: callouts of one place that are unlike each other, on average over the places. */
const slotWeight = 0.005;
/**
 * Each pair with one complaint in a place: as bad as totals of two variants that lie a tenth apart in one measure. No dearer, since the same
 * words from behind which another fault has to be found tell nobody anything.
 */
const sameComplaint = 0.0025;

/** Pairs with one fault in a place, against those in a variant: more than there can be of these. */
const inPlace = 100_000;

/** A callout with what is looked at in the search. */
export interface Weighed {
	readonly item: CalloutItem;
	/** Household and numbers: the same whichever fault is put into them. */
	readonly numbers: string;
	readonly fault: string;
	readonly complaint: string;
	/** By measure. */
	readonly values: readonly number[];
}

export const weighed = (item: CalloutItem): Weighed => ({
	item,
	numbers: `${item.family}/${item.seed}`,
	fault: `${item.family}/${item.fault}`,
	complaint: `${item.family}/${item.complaint}`,
	values: measures.map((measure) => item.difficulty[measure])
});

/** Fewer repeats come before what is more alike, whatever that costs. */
export interface Unlikeness {
	/** Pairs with one fault in a place, of which the one tells of the other, and, weighing less than any of those, in a variant. */
	readonly repeats: number;
	/** How far the variants lie apart, with what complaints told twice in a place are worth. */
	readonly spread: number;
}

/** What lowers the spread by less than this is not worth a change. */
const leastGain = 1e-9;

/** Whether the one is better by enough to change for it. */
export const isBetter = (one: Unlikeness, than: Unlikeness): boolean =>
	one.repeats < than.repeats || (one.repeats === than.repeats && one.spread < than.spread - leastGain);

/**
 * A choice that is being searched: callouts by variant and slot, with the variants' sums beside.
 *
 * Its spread adds up those of the variants' sums, and those of the callouts within each slot by a small weight. A spread is a variance over
 * the square of the mean, added up over the measures: were it the variance alone, cheap callouts would be preferred because they cannot
 * differ by much.
 */
export class Board {
	readonly choice: Weighed[][];
	readonly #sums: number[][];

	constructor(choice: readonly (readonly Weighed[])[]) {
		this.choice = choice.map((row) => [...row]);
		this.#sums = choice.map((row) => measures.map((_, index) => row.reduce((sum, { values }) => sum + values[index], 0)));
	}

	put(variant: number, slot: number, callout: Weighed): void {
		const before = this.choice[variant][slot];
		this.choice[variant][slot] = callout;
		const sums = this.#sums[variant];
		for (let index = 0; index < sums.length; index++) sums[index] += callout.values[index] - before.values[index];
	}

	unlikeness(): Unlikeness {
		const slots = (this.choice[0] ?? []).map((_, slot) => this.#inSlot(slot));
		return {
			repeats: [...this.choice.map((row) => pairs(row, 'fault')), ...slots.map(({ repeats }) => repeats)].reduce((a, b) => a + b, 0),
			spread: slots.reduce((sum, slot) => sum + slot.spread, spread(this.#sums))
		};
	}

	/** What of it may change when these variants have other callouts in this slot. */
	around(slot: number, variant: number, other: number | null): Unlikeness {
		const inVariants = pairs(this.choice[variant], 'fault') + (other === null ? 0 : pairs(this.choice[other], 'fault'));
		const inSlot = this.#inSlot(slot);
		return { repeats: inVariants + inSlot.repeats, spread: spread(this.#sums) + inSlot.spread };
	}

	#inSlot(slot: number): Unlikeness {
		const there = this.choice.map((row) => row[slot]);
		const apart = (slotWeight * spread(there.map(({ values }) => values))) / this.choice[0].length;
		return { repeats: inPlace * pairs(there, 'fault'), spread: apart + sameComplaint * pairs(there, 'complaint') };
	}
}

/** How many pairs have the same. */
function pairs(some: readonly Weighed[], what: 'fault' | 'complaint'): number {
	let found = 0;
	for (let one = 1; one < some.length; one++)
		for (let other = 0; other < one; other++) found += Number(some[one][what] === some[other][what]);
	return found;
}

/** Variance over the square of the mean, of each measure, added up. */
function spread(rows: readonly (readonly number[])[]): number {
	let all = 0;
	for (let index = 0; index < measures.length; index++) {
		let sum = 0;
		for (const row of rows) sum += row[index];
		if (sum <= 0) continue;
		const mean = sum / rows.length;
		for (const row of rows) all += (row[index] / mean - 1) ** 2 / rows.length;
	}
	return all;
}
