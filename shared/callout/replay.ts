/** A path played again: from the same callout and actions the same state, to the last digit. */
import { act, start } from './act.ts';
import type { Action } from './action.ts';
import type { Callout } from './callout.ts';
import type { CalloutState } from './state.ts';

/** A path holds an action that could not be done where it stands. Stored paths never do. */
export class RefusedAction extends Error {
	readonly index: number;
	readonly action: Action;
	readonly refused: string;

	constructor(index: number, action: Action, refused: string) {
		super(`actions[${index}] (${action.kind}) cannot be done there: ${refused}`);
		this.name = 'RefusedAction';
		this.index = index;
		this.action = action;
		this.refused = refused;
	}
}

/** @throws RefusedAction */
export function replay(callout: Callout, actions: readonly Action[]): CalloutState {
	return actions.reduce<CalloutState>((state, action, index) => {
		const next = act(callout, state, action);
		if ('refused' in next) throw new RefusedAction(index, action, next.refused);
		return next;
	}, start());
}
