/** Paths on callouts of the real pack, by plan: what a test needs done is done safely and legally. */
import { act, start } from '#shared/callout/act.ts';
import type { Sureness } from '#shared/callout/action.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { makeCallout } from '#shared/callout/make.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { planAfterChecks, planLeave, planProof, planRemedy } from '#shared/diagnosis/plan.ts';
import type { Plan } from '#shared/diagnosis/plan.ts';
import type { Remedy } from '#shared/scenario/pack.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { combi } from '../../sampled.ts';

export const pack = combi;
export const table = await evidenceFor(pack);
export { start };

/** Unlike callouts, the same at every run. */
export const callouts = (count: number, first = 70_000): Callout[] => Array.from({ length: count }, (_, n) => makeCallout(pack, first + n));

export function follow(callout: Callout, state: CalloutState, plan: Plan | null, sure: Sureness = 'guess'): CalloutState {
	if (!plan) throw new Error('no way leads there');
	return plan.actions.reduce((here, action) => {
		const next = act(callout, here, action.kind === 'remedy' ? { ...action, sure } : action);
		if ('refused' in next) throw new Error(`${JSON.stringify(action)}: ${next.refused}`);
		return next;
	}, state);
}

export const curing = ({ fault }: Callout): Remedy => pack.remedies.find((remedy) => remedy.id === fault!.cured[0])!;

/** A part that is sound here. */
export const soundPart = ({ fault }: Callout): Remedy =>
	pack.remedies.find((remedy) => remedy.kind === 'fit' && !fault!.cured.includes(remedy.id) && remedy.id !== 'fit-main-exchanger')!;

/** Does a remedy with the checks that must follow, and proves. */
export function repair(callout: Callout, state: CalloutState, remedy: Remedy, sure: Sureness = 'guess'): CalloutState {
	const done = follow(callout, state, planRemedy(pack, state, remedy), sure);
	const checked = follow(callout, done, planAfterChecks(pack, done, remedy.disturbs));
	return follow(callout, checked, planProof(pack, checked, callout.complaint));
}

/** Leaves, having told what was found and what the fault asks for. */
export function leave(
	callout: Callout,
	state: CalloutState,
	told = ['advise-found', 'advise-scald', ...callout.fault!.advise]
): CalloutState {
	return follow(callout, state, planLeave(pack, state, [...new Set(told)]));
}
