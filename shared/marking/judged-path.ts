/** Each event of a path at the belief its learner could have held: what it lost against the best action then. */
import type { Callout } from '#shared/callout/callout.ts';
import { checksDue } from '#shared/callout/disturbed.ts';
import type { CalloutEvent, CalloutState } from '#shared/callout/state.ts';
import { beliefAfter, standingOf, statesAlong } from '#shared/diagnosis/belief.ts';
import type { EvidenceTable, Suspicion } from '#shared/diagnosis/evidence.ts';
import { entropyBits } from '#shared/diagnosis/expected-cost.ts';
import { choiceKey, nextActions, regret } from '#shared/diagnosis/next-action.ts';
import type { Choice, Valued } from '#shared/diagnosis/next-action.ts';
import { costOf } from '#shared/diagnosis/plan.ts';
import { isShown, wholeReadings } from '#shared/diagnosis/proof.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import { wasStopped } from './words.ts';
import { judgedFrom, needsStep, purposesOf } from './purpose.ts';

export interface JudgedEvent {
	readonly event: CalloutEvent;
	readonly before: Suspicion;
	readonly after: Suspicion;
	/** Remedies whose suspect something read by then shows. */
	readonly shown: { readonly before: ReadonlySet<string>; readonly after: ReadonlySet<string> };
	/** [currency]; null where the action is not judged by cost. */
	readonly regret: number | null;
	/** What would have been better; null where the action was the best one itself, or was stopped. */
	readonly best: Choice | null;
	readonly entropyBits: number;
}

export interface JudgedPath {
	readonly events: readonly JudgedEvent[];
	/** Of all events together [currency]. */
	readonly regret: number;
	/** What the sound path costs [currency]. */
	readonly soundCost: number;
}

const judged = new WeakMap<EvidenceTable, WeakMap<CalloutState, JudgedPath>>();

/** The path judged event by event. Worked out once for a table and a state. */
export function judgePath(callout: Callout, state: CalloutState, table: EvidenceTable): JudgedPath {
	let known = judged.get(table);
	if (!known) judged.set(table, (known = new WeakMap()));
	let path = known.get(state);
	if (!path) known.set(state, (path = judge(callout, state, table)));
	return path;
}

function judge(callout: Callout, state: CalloutState, table: EvidenceTable): JudgedPath {
	const states = statesAlong(callout, state);
	const beliefs = Array.from({ length: state.events.length + 1 }, (_, count) => beliefAfter(callout, state, table, count));
	const choices = state.events.map((event, index) => choiceOf(event, states[index]));
	const purposes = purposesOf(callout, state.events, states, choices);
	const lists: (readonly Valued[])[] = states.map((here, index) => {
		const also = choices[purposes[index] ?? index];
		return nextActions(callout.pack, table, beliefs[index], standingOf(callout, here), also ?? undefined);
	});
	const shown = states.map((here, index) => shownBy(callout, here, table, beliefs[index]));
	const soundCost = costOf(callout.pack, soundPath(callout, table).state);
	const events = state.events.map((event, index): JudgedEvent => {
		const valued = lists[judgedFrom(state.events, purposes, index)];
		const lost =
			event.action.kind === 'step'
				? stepRegret(callout, event, event.action.step, purposes[index] !== null, valued, lists[index + 1], soundCost)
				: regretOf(callout, event, states[index], valued, choices[index]);
		return {
			event,
			before: beliefs[index],
			after: beliefs[index + 1],
			shown: { before: shown[index], after: shown[index + 1] },
			regret: lost,
			best: betterThan(event, choices[index], valued),
			entropyBits: entropyBits(beliefs[index + 1].faults)
		};
	});
	return { events, regret: events.reduce((sum, { regret: lost }) => sum + (lost ?? 0), 0), soundCost };
}

function shownBy({ pack }: Callout, { readings }: CalloutState, table: EvidenceTable, { faults }: Suspicion): ReadonlySet<string> {
	const whole = wholeReadings(readings);
	return new Set(pack.remedies.flatMap(({ id }) => (isShown(pack, table, faults, whole, id) ? [id] : [])));
}

/** The best choice, where it was another than what was done. */
function betterThan(event: CalloutEvent, choice: Choice | null, valued: readonly Valued[]): Choice | null {
	const best = valued[0]?.choice;
	if (!best || wasStopped(event) || (choice && choiceKey(choice) === choiceKey(best))) return null;
	return best;
}

/** A step that what follows needs, or that an action close to the best needs, loses nothing. */
function stepRegret(
	{ pack }: Callout,
	event: CalloutEvent,
	step: string,
	isNeeded: boolean,
	valued: readonly Valued[],
	next: readonly Valued[],
	soundCost: number
): number {
	const here = valued[0]?.expected ?? 0;
	const close = here + pack.rules.weighing.justifiedRegret * soundCost;
	if (isNeeded || valued.some(({ expected, plan }) => expected <= close && needsStep(plan, step))) return 0;
	// A step changes no belief: what it loses is what is dearer after it than before.
	return Math.max(0, costOf(pack, event) + (next[0]?.expected ?? 0) - here);
}

/** The choice that an event stands for; null where it is none. */
function choiceOf(event: CalloutEvent, before: CalloutState): Choice | null {
	const { action } = event;
	switch (action.kind) {
		case 'check':
			return { kind: 'check', check: action.check, demand: before.demand };
		case 'demand':
			return { kind: 'demand', demand: action.demand };
		case 'remedy':
			return { kind: 'remedy', remedy: action.remedy };
		case 'prove':
		case 'leave':
			return { kind: action.kind };
		default:
			return null;
	}
}

function regretOf(
	callout: Callout,
	event: CalloutEvent,
	before: CalloutState,
	valued: readonly Valued[],
	choice: Choice | null
): number | null {
	const { pack } = callout;
	const { action } = event;
	const cost = costOf(pack, event);
	const lost = () => (choice && regret(valued, choice)) ?? cost;
	if (action.kind === 'judge' || action.kind === 'note' || action.kind === 'predict') return null;
	if (wasStopped(event)) return cost;
	switch (action.kind) {
		case 'demand': {
			// Seeing for oneself what was complained of is where every visit begins.
			const seen = before.events.some(({ action: earlier }) => earlier.kind === 'demand' && earlier.demand === action.demand);
			if (!seen && action.demand === callout.complaint.proves.demand) return 0;
			// A demand is set for whatever can then be done under it.
			const under = valued.filter(
				({ choice, plan }) =>
					('demand' in choice && choice.demand === action.demand) || (choice.kind !== 'leave' && plan.after.demand === action.demand)
			);
			return under.length > 0 ? Math.max(0, under[0].expected - valued[0].expected) : cost;
		}
		case 'check':
			if (checksDue(pack, before).includes(action.check)) return 0;
			return lost();
		case 'prove':
			return before.remedies.length > 0 && before.provedAt === null ? 0 : lost();
		default:
			return lost();
	}
}
