/**
 * Coached practice: before a check the learner says what it would read if each of a few faults were the one, and then takes it. It costs
 * no time and changes no reading and no mark.
 */
import type { Demand } from '#shared/appliance/model.ts';
import { wayOfCheck } from './act-look.ts';
import type { Action } from './action.ts';
import type { Callout } from './callout.ts';
import type { Outcome } from './outcome.ts';
import { openPrediction, readsInWords, readsOf } from './prediction.ts';
import type { CalloutEvent, CalloutState, Prediction, Refusal } from './state.ts';

type PredictAction = Extract<Action, { kind: 'predict' }>;

/** Written down before the reading and only once: what is said after a first look is no prediction. */
export function predict(callout: Callout, state: CalloutState, { check: id, expects }: PredictAction): Outcome | Refusal {
	const { pack } = callout;
	const check = pack.checks.find((one) => one.id === id);
	if (!check) return { refused: `There is no check "${id}" on this appliance.` };
	const unknown = expects.find(({ fault }) => !pack.faults.some((one) => one.id === fault));
	if (unknown) return { refused: `There is no fault "${unknown.fault}" for this appliance.` };
	if (new Set(expects.map(({ fault }) => fault)).size < expects.length)
		return { refused: 'One suspect stands there twice: name different ones.' };
	const allowed = readsOf(check.words?.map(({ word }) => word) ?? null);
	const odd = expects.find(({ reads }) => !allowed.includes(reads));
	if (odd) return { refused: `"${check.name}" does not read "${odd.reads}"; it can be ${allowed.map(readsInWords).join(', ')}.` };
	const open = openPrediction(state);
	if (open) {
		const name = pack.checks.find((one) => one.id === open.check)?.name ?? open.check;
		return { refused: `A prediction for "${name}" waits for its reading: take that check, or go on to another without predicting.` };
	}
	if (isKnown(state, id)) return { refused: `"${check.name}" has been read so already: there is nothing left to predict.` };
	const inTheWay = wayOfCheck(callout, state, check);
	if (inTheWay.length > 0) return { refused: inTheWay.join(' ') };
	const said: Prediction = { event: state.events.length, check: id, demand: state.demand, expects, observed: null, lapsed: false };
	return {
		minutes: 0,
		says: expects.map(({ fault, reads }) => `${pack.faults.find((one) => one.id === fault)?.says ?? fault}: ${readsInWords(reads)}.`),
		changes: { predictions: [...state.predictions, said] }
	};
}

/**
 * Whether a check has been read under the present demand, on the appliance as it now is. One read with the instrument set by hand does not
 * count: it may have told nothing, and that is not to be given away here.
 */
export function isKnown({ readings, demand, remedies }: CalloutState, check: string): boolean {
	return readings.some((one) => one.check === check && one.demand === demand && one.after.length === remedies.length && !one.setting);
}

/**
 * What an event makes of the prediction that was open. Its check, under the demand it was said for, observes it. Making safe, opening up,
 * judging and writing leave it open; whatever else is done, the learner has gone on.
 * @param demand  after the event
 */
export function predictionsAfter(predictions: readonly Prediction[], event: CalloutEvent, demand: Demand): readonly Prediction[] {
	const open = openPrediction({ predictions });
	if (!open || open.event === event.index) return predictions;
	const isSeen = event.readings.some((reading) => reading.check === open.check && reading.demand === open.demand);
	if (isSeen) return [...predictions.slice(0, -1), { ...open, observed: event.index }];
	return staysOpen(open, event, demand) ? predictions : [...predictions.slice(0, -1), { ...open, lapsed: true }];
}

function staysOpen(open: Prediction, { action }: CalloutEvent, demand: Demand): boolean {
	if (demand !== open.demand) return false;
	if (action.kind === 'check') return action.check === open.check;
	return ['step', 'judge', 'note'].includes(action.kind);
}
