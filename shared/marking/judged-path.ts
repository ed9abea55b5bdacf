/** Each event of a path at the belief its learner could have held: what it lost against the best action then. */
import type { Callout } from '#shared/callout/callout.ts';
import { checksDue } from '#shared/callout/disturbed.ts';
import type { CalloutEvent, CalloutState } from '#shared/callout/state.ts';
import { beliefAfter, standingOf, statesAlong } from '#shared/diagnosis/belief.ts';
import type { EvidenceTable, Suspicion } from '#shared/diagnosis/evidence.ts';
import { entropyBits } from '#shared/diagnosis/expected-cost.ts';
import { nextActions, regret } from '#shared/diagnosis/next-action.ts';
import type { Choice, Valued } from '#shared/diagnosis/next-action.ts';
import { costOf } from '#shared/diagnosis/plan.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';

export interface JudgedEvent {
	readonly event: CalloutEvent;
	readonly before: Suspicion;
	readonly after: Suspicion;
	/** [currency]; null where the action is not judged by cost. */
	readonly regret: number | null;
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
	const lists: (readonly Valued[])[] = states.map((here, index) =>
		nextActions(callout.pack, table, beliefs[index], standingOf(callout, here), choices[index] ?? undefined)
	);
	const events = state.events.map((event, index): JudgedEvent => {
		const valued = lists[index];
		const lost = regretOf(callout, event, states[index], valued, choices[index], lists[index + 1]);
		return {
			event,
			before: beliefs[index],
			after: beliefs[index + 1],
			regret: lost,
			best: valued[0]?.choice ?? null,
			entropyBits: entropyBits(beliefs[index + 1].faults)
		};
	});
	const sound = soundPath(callout, table).state;
	return {
		events,
		regret: events.reduce((sum, { regret: lost }) => sum + (lost ?? 0), 0),
		soundCost: costOf(callout.pack, sound)
	};
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
	choice: Choice | null,
	next: readonly Valued[]
): number | null {
	const { pack } = callout;
	const { action } = event;
	const cost = costOf(pack, event);
	const lost = () => (choice && regret(valued, choice)) ?? cost;
	if (action.kind === 'judge' || action.kind === 'note' || action.kind === 'predict') return null;
	if (event.breaches.length > 0 && action.kind !== 'leave') return cost;
	switch (action.kind) {
		case 'step': {
			// A step changes no belief: what it loses is what is dearer after it than before.
			const here = valued[0]?.expected ?? 0;
			return Math.max(0, cost + (next[0]?.expected ?? 0) - here);
		}
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
