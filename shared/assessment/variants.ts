/**
 * Variants of a paper that tell nothing of each other and are as hard as each other, by what is predicted of their callouts.
 *
 * From callouts drawn for each place a first choice is made by chance. Then, place by place and variant by variant in chance order, a
 * callout is put in the place of another, or two variants change theirs, whichever is best by unlikeness.ts, until nothing helps. No fault
 * comes twice in a place, nor then in a variant, while there is another, whatever that costs; after that the variants are made to come to the same,
 * with another complaint in each where that costs little. It is done from several first choices, and the best outcome is kept. It is a
 * local search: another choice might be more alike still, so what was reached is shown (spread.ts) and not promised.
 */
import { chance, type Chance } from '#shared/quantity/random.ts';
import { shuffled } from '#shared/review/drills/draw.ts';
import { Board, isBetter, weighed, type Unlikeness, type Weighed } from './unlikeness.ts';
import type { CalloutItem } from './variant.ts';

/** First choices tried, by how much is to be chosen: many where that is quick, and where one bad place is not evened out by others. */
const startsFor = (items: number): number => Math.min(60, Math.max(3, Math.round(1000 / Math.max(1, items))));
/** Rounds over all places before a search is ended; a handful is usual. */
const mostRounds = 60;

/** A place in the paper has fewer unlike callouts than variants are asked for. */
export class TooFewCallouts extends Error {
	override readonly name = 'TooFewCallouts';
	readonly slot: number;

	constructor(slot: number, there: number, wanted: number) {
		super(`place ${slot + 1} of the paper has ${there} callouts to choose from; ${wanted} variants need as many`);
		this.slot = slot;
	}
}

/**
 * @param candidates callouts by slot, some of which may have the same ones; their order does not matter
 * @param count      how many variants, whole number > 0
 * @param seed       the same seed and candidates give the same variants
 * @returns items by variant, then by slot. No two items have a family and a seed, and so a household and its numbers, in common
 * @throws TooFewCallouts
 */
export function equalVariants(candidates: readonly (readonly CalloutItem[])[], count: number, seed: number): CalloutItem[][] {
	const pools = candidates.map((pool) => pool.toSorted(inOneOrder).map(weighed));
	const boards = Array.from({ length: startsFor(count * pools.length) }, (_, start) => {
		const stream = chance(seed, 'paper', 'variants', start);
		return search(new Board(firstChoice(pools, count, stream)), pools, stream);
	});
	const { choice } = boards.reduce((best, board) => (isBetter(board.unlikeness(), best.unlikeness()) ? board : best));
	return choice.map((row) => row.map(({ item }) => item));
}

/** Any order will do, as long as it is always the same. */
function inOneOrder(a: CalloutItem, b: CalloutItem): number {
	const [first, second] = [a, b].map(({ family, fault, seed }) => `${family}/${fault}/${seed}`);
	return first < second ? -1 : first > second ? 1 : 0;
}

/** Callouts by variant and slot, by chance: of each place first those with faults of their own. */
function firstChoice(pools: readonly (readonly Weighed[])[], count: number, stream: Chance): Weighed[][] {
	const used = new Set<string>();
	const bySlot = pools.map((pool, slot) => {
		const chosen: Weighed[] = [];
		const faults = new Set<string>();
		const inOrder = shuffled(stream, pool);
		for (const isAnyFault of [false, true])
			for (const callout of inOrder) {
				if (chosen.length === count || used.has(callout.numbers) || (!isAnyFault && faults.has(callout.fault))) continue;
				used.add(callout.numbers);
				faults.add(callout.fault);
				chosen.push(callout);
			}
		if (chosen.length < count) throw new TooFewCallouts(slot, chosen.length, count);
		return chosen;
	});
	return Array.from({ length: count }, (_, variant) => bySlot.map((chosen) => chosen[variant]));
}

function search(board: Board, pools: readonly (readonly Weighed[])[], stream: Chance): Board {
	const used = new Set(board.choice.flatMap((row) => row.map(({ numbers }) => numbers)));
	const places = board.choice.flatMap((row, variant) => row.map((_, slot) => ({ variant, slot })));
	for (let round = 0; round < mostRounds; round++) {
		const changed = shuffled(stream, places).filter(({ variant, slot }) => change(board, pools[slot], variant, slot, used));
		if (changed.length === 0) break;
	}
	return board;
}

/** Makes the change at one place that helps most. @returns whether any helps */
function change(board: Board, pool: readonly Weighed[], variant: number, slot: number, used: Set<string>): boolean {
	const here = board.choice[variant][slot];
	const put = (first: Weighed, other: number | null, second: Weighed) => {
		board.put(variant, slot, first);
		if (other !== null) board.put(other, slot, second);
	};
	let best = { callout: here, other: null as number | null, by: { repeats: 0, spread: 0 } };
	const consider = (callout: Weighed, other: number | null, before: Unlikeness) => {
		put(callout, other, here);
		const after = board.around(slot, variant, other);
		put(here, other, callout);
		const by = { repeats: after.repeats - before.repeats, spread: after.spread - before.spread };
		if (isBetter(by, best.by)) best = { callout, other, by };
	};
	const alone = board.around(slot, variant, null);
	for (const callout of pool) if (!used.has(callout.numbers)) consider(callout, null, alone);
	board.choice.forEach((row, other) => other !== variant && consider(row[slot], other, board.around(slot, variant, other)));
	if (best.callout === here) return false;
	if (best.other === null) {
		used.delete(here.numbers);
		used.add(best.callout.numbers);
	}
	put(best.callout, best.other, here);
	return true;
}
