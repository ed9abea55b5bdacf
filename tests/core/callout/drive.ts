/** Ways to drive a callout in tests. */
import { act, start } from '#shared/callout/act.ts';
import type { Action } from '#shared/callout/action.ts';
import type { Callout } from '#shared/callout/callout.ts';
import type { CalloutState } from '#shared/callout/state.ts';

/** Does the actions one after the other. @throws Error at the first refusal */
export function does(callout: Callout, actions: readonly Action[], from: CalloutState = start()): CalloutState {
	return actions.reduce<CalloutState>((state, action) => {
		const next = act(callout, state, action);
		if ('refused' in next) throw new Error(`${action.kind}: ${next.refused}`);
		return next;
	}, from);
}

/** What is said when the last of the actions is refused. @throws Error when it is not */
export function refusal(callout: Callout, state: CalloutState, action: Action): string {
	const next = act(callout, state, action);
	if ('refused' in next) return next.refused;
	throw new Error(`${action.kind} was expected to be refused`);
}

export const step = (id: string): Action => ({ kind: 'step', step: id });
export const check = (id: string): Action => ({ kind: 'check', check: id });
export const demand = (id: 'none' | 'tap' | 'heating'): Action => ({ kind: 'demand', demand: id });
export const remedy = (id: string): Action => ({ kind: 'remedy', remedy: id, sure: 'likely' });
export const leave: Action = { kind: 'leave', told: [] };
export const prove: Action = { kind: 'prove' };
