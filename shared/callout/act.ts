/** One action on a callout: a new state, or a refusal that says what to do first. Nothing is changed in place. */
import { openingSite } from '#shared/scenario/site.ts';
import { doStep, setDemand, takeOneCheck } from './act-look.ts';
import { doRemedy, judge, leave, prove } from './act-work.ts';
import type { Action } from './action.ts';
import type { Callout } from './callout.ts';
import type { Outcome } from './outcome.ts';
import { predict, predictionsAfter } from './predict.ts';
import type { CalloutEvent, CalloutState, Refusal } from './state.ts';

/** What a visit has room for. A path that goes on and on teaches nothing, and its debrief takes longer with every step. */
export const mostEvents = 300;

/** On arrival: nothing called for, everything on, casing on. */
export function start(): CalloutState {
	return {
		demand: 'none',
		site: new Set(openingSite),
		minutes: 0,
		spent: 0,
		fetched: new Set(),
		events: [],
		readings: [],
		remedies: [],
		predictions: [],
		cured: false,
		provedAt: null,
		told: [],
		ended: null
	};
}

/**
 * What an action leads to.
 * @returns the next state with one more event; or a refusal, when it cannot be done now: nothing is stored and no time passes
 */
export function act(callout: Callout, state: CalloutState, action: Action): CalloutState | Refusal {
	if (state.ended) return { refused: 'This visit is over.' };
	if (state.events.length >= mostEvents && action.kind !== 'leave') {
		return { refused: `A visit has room for ${mostEvents} actions, and this one has had them. Leave; the debrief takes it from there.` };
	}
	const outcome = outcomeOf(callout, state, action);
	if ('refused' in outcome) return outcome;
	const { changes = {}, ...happened } = outcome;
	const event: CalloutEvent = {
		index: state.events.length,
		action,
		minute: state.minutes,
		minutes: happened.minutes,
		spent: happened.spent ?? 0,
		readings: happened.readings ?? [],
		breaches: happened.breaches ?? [],
		says: happened.says ?? []
	};
	return {
		...state,
		...changes,
		minutes: state.minutes + event.minutes,
		spent: state.spent + event.spent,
		events: [...state.events, event],
		readings: [...state.readings, ...event.readings],
		predictions: predictionsAfter(changes.predictions ?? state.predictions, event, changes.demand ?? state.demand)
	};
}

function outcomeOf(callout: Callout, state: CalloutState, action: Action): Outcome | Refusal {
	switch (action.kind) {
		case 'demand':
			return setDemand(callout, state, action.demand);
		case 'check':
			return takeOneCheck(callout, state, action);
		case 'step':
			return doStep(callout, state, action.step);
		case 'remedy':
			return doRemedy(callout, state, action.remedy, action.sure);
		case 'judge':
			return judge(callout, action.still);
		case 'note':
			return { minutes: 0 };
		case 'predict':
			return predict(callout, state, action);
		case 'prove':
			return prove(callout, state);
		case 'leave':
			return leave(callout, state, action.told);
	}
}
