/** What is believed before each event of a path, and where the visit then stands. */
import type { Demand } from '#shared/appliance/model.ts';
import { act, start } from '#shared/callout/act.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { RefusedAction } from '#shared/callout/replay.ts';
import { shownCheck } from '#shared/callout/setting.ts';
import type { CalloutEvent, CalloutState } from '#shared/callout/state.ts';
import { columnKey } from './column-facts.ts';
import type { EvidenceTable, Suspicion } from './evidence.ts';
import type { Standing } from './next-action.ts';
import { wholeReadings } from './proof.ts';
import { suspicion } from './suspicion.ts';
import type { Proof } from './suspicion.ts';

/** Proofs among these events, as the engineer saw them. */
export function proofsOf(state: Pick<CalloutState, 'remedies'>, events: readonly CalloutEvent[]): Proof[] {
	return events
		.filter((event) => event.action.kind === 'prove' && event.breaches.length === 0)
		.map((event) => {
			const done = state.remedies.filter((remedy) => remedy.event < event.index);
			return { after: done.map((d) => d.remedy), stillFaulty: !done.some((d) => d.cured) };
		});
}

/** Suspicion from the first `events` events of a path. */
export function beliefAfter(callout: Callout, state: CalloutState, table: EvidenceTable, events: number): Suspicion {
	const readings = state.readings.filter((reading) => reading.event < events);
	return suspicion(callout.pack, table, callout.complaint.id, readings, proofsOf(state, state.events.slice(0, events)));
}

/** Where the visit stands, as the next action is chosen from it. */
export function standingOf(callout: Callout, state: CalloutState): Standing {
	const last = state.remedies.at(-1);
	const proof = state.provedAt === null || !last ? null : (proofsOf(state, state.events).at(-1) ?? null);
	const taken = state.readings.filter((reading) => !last || reading.event > last.event);
	return {
		demand: state.demand,
		site: state.site,
		fetched: state.fetched,
		complaint: callout.complaint,
		done: state.remedies.map((remedy) => remedy.remedy),
		proof: !last ? 'none-due' : proof === null ? 'due' : proof.stillFaulty ? 'still-faulty' : 'gone',
		taken: new Set(taken.flatMap((reading) => keyOf(shownCheck(reading), reading.demand))),
		read: wholeReadings(state.readings)
	};
}

const keyOf = (check: string | null, demand: Demand) => (check === null ? [] : [columnKey(check, demand)]);

/** The state before each event of a path, and the last: one more than there are events. @throws RefusedAction */
export function statesAlong(callout: Callout, state: CalloutState): CalloutState[] {
	const states = [start()];
	for (const { action, index } of state.events.slice(0, -1)) {
		const next = act(callout, states[index], action);
		if ('refused' in next) throw new RefusedAction(index, action, next.refused);
		states.push(next);
	}
	return state.events.length > 0 ? [...states, state] : states;
}
