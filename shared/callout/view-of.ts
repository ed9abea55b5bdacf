/** The learner's view of a callout, made of what the learner knows and nothing else. */
import type { Check, SafetyRule } from '#shared/scenario/schema.ts';
import type { Pack, Remedy } from '#shared/scenario/pack.ts';
import { instrumentOf, toolOf } from '#shared/scenario/rotary.ts';
import type { Action } from './action.ts';
import { stepsFirst, wayOfCheck } from './act-look.ts';
import { checksThatProve, isFitted } from './act-work.ts';
import type { Callout } from './callout.ts';
import { standsInTheWay } from './needs.ts';
import { isKnown } from './predict.ts';
import { readsInWords } from './prediction.ts';
import type { CalloutEvent, CalloutState, Prediction, Reading } from './state.ts';
import { fetching } from './van.ts';
import { settingInWords, toolsOf } from './tools.ts';
import type { CalloutView, CheckOffer, EventLine, PredictionLine, ReadingLine, RemedyOffer, StepOffer } from './view.ts';

export function viewOf(callout: Callout, state: CalloutState): CalloutView {
	const { pack, household, complaintSays } = callout;
	const { family, rules } = pack;
	return {
		family: { id: family.id, name: family.name, short: family.short, says: family.says },
		household: household.says,
		complaint: complaintSays,
		drawing: pack.drawing,
		demands: family.demands,
		demand: state.demand,
		site: [...state.site],
		steps: stepOffers(callout, state),
		checks: pack.checks.map((check) => checkOffer(callout, state, check)),
		tools: toolsOf(pack),
		remedies: pack.remedies.map((remedy) => remedyOffer(callout, state, remedy)),
		faults: pack.faults.map(({ id, says, area }) => ({ id, says, area })),
		judged: lastJudged(state),
		notes: notesOf(state),
		predictions: state.predictions.map((prediction) => predictionLine(callout, prediction)),
		advice: pack.advice,
		readings: state.readings.map((reading) => readingLine(callout, state, reading)),
		events: state.events.map((event) => eventLine(callout, event)),
		minutes: state.minutes,
		spent: state.spent,
		proveMinutes: rules.proveMinutes,
		proveFetchMinutes: fetching(pack, state.fetched, checksThatProve(callout)).minutes,
		leaveMinutes: rules.leaveMinutes,
		rules: { name: rules.name, currency: rules.currency, labourPerHour: rules.labourPerHour },
		ended: state.ended
	};
}

function stepOffers(callout: Callout, state: CalloutState): StepOffer[] {
	return callout.pack.rules.steps.map(({ id, name, how, minutes, sets, needs }) => ({
		id,
		name,
		how,
		minutes,
		sets,
		unmet: stepsFirst(
			callout,
			needs.filter((need) => !state.site.has(need))
		),
		stands: sets.every((set) => state.site.has(set))
	}));
}

function checkOffer(callout: Callout, state: CalloutState, check: Check): CheckOffer {
	const instrument = instrumentOf(callout.pack, check);
	return {
		id: check.id,
		name: check.name,
		how: check.how,
		way: check.way,
		place: check.place,
		area: check.area,
		live: check.live,
		caution: check.caution,
		misleads: check.misleads,
		minutes: check.minutes,
		under: check.under,
		instrument: instrument?.name ?? null,
		tool: instrument?.face ? toolOf(instrument) : null,
		terminals: check.terminals ? { points: check.terminals.points, between: check.terminals.between } : null,
		fetchMinutes: fetching(callout.pack, state.fetched, [check]).minutes,
		taken: state.readings.filter((reading) => reading.check === check.id).length,
		known: isKnown(state, check.id),
		words: check.words?.map(({ word }) => word) ?? null,
		unmet: wayOfCheck(callout, state, check)
	};
}

function remedyOffer({ pack }: Callout, state: CalloutState, remedy: Remedy): RemedyOffer {
	const { id, name, kind, place, price, minutes, caution } = remedy;
	const unmet = standsInTheWay(pack, remedy.needs, state.site);
	return {
		id,
		name,
		kind,
		place,
		price,
		minutes,
		caution,
		unmet,
		done: isFitted(state, remedy) || state.remedies.some((done) => done.remedy === id)
	};
}

function readingLine({ pack }: Callout, state: CalloutState, reading: Reading): ReadingLine {
	const check = pack.checks.find(({ id }) => id === reading.check);
	const { action } = state.events[reading.event]!;
	const { setting, ...taken } = reading;
	return {
		...taken,
		setting: setting && check ? settingInWords(pack, check, setting) : null,
		name: check?.name ?? reading.check,
		place: check?.place ?? '',
		area: check?.area ?? '',
		noticed: action.kind === 'demand'
	};
}

function lastJudged(state: CalloutState): readonly string[] | null {
	const last = state.events.map(({ action }) => action).findLast((action) => action.kind === 'judge');
	return last?.kind === 'judge' ? last.still : null;
}

function notesOf(state: CalloutState): CalloutView['notes'] {
	return state.events.flatMap(({ action, index, minute }) => (action.kind === 'note' ? [{ event: index, minute, text: action.text }] : []));
}

function predictionLine({ pack }: Callout, { expects, ...said }: Prediction): PredictionLine {
	const faultName = (id: string) => pack.faults.find((fault) => fault.id === id)?.says ?? id;
	return { ...said, suspects: expects.map(({ fault, reads }) => ({ id: fault, says: faultName(fault), would: readsInWords(reads) })) };
}

/** An event as it is told: what was done, in words, and the rules that it breached. */
export function eventLine(callout: Callout, event: CalloutEvent): EventLine {
	const breaches: SafetyRule[] = callout.pack.rules.safety.filter(({ id }) => event.breaches.includes(id));
	const { index, minute, minutes, spent, says } = event;
	return { index, kind: event.action.kind, minute, minutes, spent, did: didInWords(callout, event.action), says, breaches };
}

function didInWords({ pack }: Callout, action: Action): string {
	switch (action.kind) {
		case 'demand':
			return `Demand: ${nameOf(pack.family.demands, action.demand)}`;
		case 'check':
			return checkInWords(pack, action);
		case 'step':
			return nameOf(pack.rules.steps, action.step);
		case 'remedy':
			return `${nameOf(pack.remedies, action.remedy)} (${action.sure})`;
		case 'judge':
			return `Judged: ${action.still.length} of ${pack.faults.length} faults still in`;
		case 'predict':
			return `Predicted: ${nameOf(pack.checks, action.check)}`;
		case 'note':
			return `Note: ${action.text}`;
		case 'prove':
			return 'Proved the repair';
		case 'leave':
			return 'Left';
	}
}

function checkInWords(pack: Pack, { check: id, ...chosen }: Extract<Action, { kind: 'check' }>): string {
	const check = pack.checks.find((one) => one.id === id);
	const setting = check && settingInWords(pack, check, chosen);
	return `${check?.name ?? id}${setting ? ` (${setting})` : ''}`;
}

function nameOf(items: readonly { readonly id: string; readonly name: string }[], id: string): string {
	return items.find((item) => item.id === id)?.name ?? id;
}
