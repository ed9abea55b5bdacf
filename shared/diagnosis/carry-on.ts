/**
 * No action is worth less than what it takes, and then the best that was open before it, as if it had shown nothing.
 *
 * The look-ahead sees one check behind an action and no further, so that what comes after a poor check was worked out shallower than what
 * comes after a good one, and a check of three minutes could seem to lose half an hour. A policy that passes the reading over costs the
 * same whatever the reading, and is always there to be followed: where the best action is still open afterwards, regret is at most what the
 * action itself takes, and what it makes dearer.
 */
import type { Pack } from '#shared/scenario/pack.ts';
import type { Complaint } from '#shared/scenario/schema.ts';
import { choiceKey } from './choice.ts';
import type { Choice } from './choice.ts';
import { choiceOf } from './looks.ts';
import type { LooksOwed } from './looks.ts';
import { planChoice } from './plan-choice.ts';
import { costOf, planRepair } from './plan.ts';
import type { Situation } from './plan.ts';

interface Worth {
	readonly choice: Choice;
	/** [currency] */
	readonly expected: number;
}

/** What a choice takes by itself [currency], where it leads, and the column that it reads. */
interface Taking {
	readonly choice: Choice;
	readonly own: number;
	readonly after: Situation;
	readonly reads?: string;
}

/**
 * How much dearer a choice is from other places than from here, at least 0.
 * @returns null where it is not open from there [currency]
 */
export function dearerFrom(pack: Pack, here: Situation, complaint: Complaint, choice: Choice): (from: Situation) => number | null {
	const now = planChoice(pack, here, complaint, choice, planRepair);
	return (from) => {
		const then = now && planChoice(pack, from, complaint, choice, planRepair);
		return now && then ? Math.max(0, costOf(pack, then) - costOf(pack, now)) : null;
	};
}

/** A remedy is weighed with its look, so the look that goes before it is worth no less. */
export function looksFirst<V extends Worth>(valued: readonly V[], owed: LooksOwed): V[] {
	const least = new Map<string, number>();
	for (const { choice, expected } of valued) {
		const look = choice.kind === 'remedy' && owed.get(choice.remedy);
		const key = look && choiceKey(choiceOf(look));
		if (key && expected < (least.get(key) ?? Infinity)) least.set(key, expected);
	}
	return valued.map((one) => ({ ...one, expected: Math.min(one.expected, least.get(choiceKey(one.choice)) ?? Infinity) }));
}

/**
 * Nothing loses more than it takes by itself and makes dearer, where the best action is still open afterwards.
 * @param valued the best first
 */
export function atWorstCarriedOn<V extends Worth>(
	pack: Pack,
	standing: Situation & { readonly complaint: Complaint },
	owed: LooksOwed,
	moves: readonly Taking[],
	valued: readonly V[]
): V[] {
	const [best] = valued;
	if (!best) return [];
	const dearer = dearerFrom(pack, standing, standing.complaint, best.choice);
	const look = best.choice.kind === 'remedy' ? owed.get(best.choice.remedy) : undefined;
	const byKey = new Map(moves.map((move) => [choiceKey(move.choice), move]));
	return valued.map((one) => {
		const move = byKey.get(choiceKey(one.choice));
		if (!move || one.expected <= best.expected + move.own) return one;
		const more = dearer(move.after);
		if (more === null) return one;
		const paid = (move.reads && look?.brings.get(move.reads)) || 0;
		const least = best.expected + Math.max(0, move.own + more - paid * (look?.cost ?? 0));
		return least < one.expected ? { ...one, expected: least } : one;
	});
}
