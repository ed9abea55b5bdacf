/** Faults offered in a drill, each with whether the evidence rules it out, and what is said of it. */
import type { Chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Tick } from '../answers.ts';
import { shuffled, someOf } from '../../draw.ts';
import { faultName } from '../words.ts';

export interface Fate {
	/** Index into `pack.faults`. */
	readonly fault: number;
	readonly isOut: boolean;
	/** Why, as a sentence. */
	readonly because: string;
	/** What leads somebody to take it the other way. */
	readonly misconception: string;
}

/** How many faults are offered, and of each sort at least one. */
const offered = 5;

/**
 * Some that are out and some that are in, in chance order.
 * @param outs, ins  indices into `pack.faults`, the ones best worth asking about first
 * @returns null where there is none of either
 */
export function pickFates(
	stream: Chance,
	outs: readonly number[],
	ins: readonly number[]
): { readonly outs: number[]; readonly ins: number[] } | null {
	if (outs.length === 0 || ins.length === 0) return null;
	const most = Math.min(outs.length, offered - 1);
	const out = stream.whole(Math.min(most, Math.max(1, offered - ins.length)), most);
	// From a few more than are needed, so that the same reading asks about other faults another time.
	const pick = (from: readonly number[], count: number) => someOf(stream, from.slice(0, count + 3), count);
	return { outs: pick(outs, out), ins: pick(ins, Math.min(ins.length, offered - out)) };
}

/** The faults as choices: to be ticked are those that are out, or those that are still in. */
export function ticksOf(pack: Pack, stream: Chance, fates: readonly Fate[], wanted: 'out' | 'in'): Tick[] {
	return shuffled(stream, fates).map(({ fault, isOut, misconception }) => ({
		id: pack.faults[fault].id,
		says: pack.faults[fault].says,
		right: isOut === (wanted === 'out'),
		misconception
	}));
}

/** One line a fault: those that are out first. */
export function fateLines(pack: Pack, fates: readonly Fate[]): string[] {
	return [...fates.filter(({ isOut }) => isOut), ...fates.filter(({ isOut }) => !isOut)].map(
		({ fault, isOut, because }) => `${isOut ? 'Out' : 'Still in'}: ${faultName(pack.faults[fault])}. ${because}`
	);
}
