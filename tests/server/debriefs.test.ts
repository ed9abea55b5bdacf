import { monitorEventLoopDelay } from 'node:perf_hooks';
import { expect, it } from 'vitest';
import { debriefFor } from '$lib/server/debriefs/debriefs.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { endWeighing, WeighingFailed } from '$lib/server/weighing/weigher.ts';
import { act, start } from '#shared/callout/act.ts';
import type { Action } from '#shared/callout/action.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { replay } from '#shared/callout/replay.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { debrief } from '#shared/marking/debrief.ts';
import { combi } from '../sampled.ts';
import { begun, doSome, freshService } from './fresh.ts';

const callout = makeCallout(combi, 7);
const checks = combi.checks.filter(({ under, needs }) => under.includes('tap') && needs.length === 0);

/** A visit that takes so many checks with the tap running, and leaves. */
function pathOf(count: number): Action[] {
	const wanted: Action[] = Array.from({ length: count }, (_, n) => ({ kind: 'check', check: checks[n % checks.length]!.id }));
	let state: CalloutState = start();
	const all: Action[] = [{ kind: 'demand', demand: 'tap' }, ...wanted, { kind: 'leave', told: [] }];
	for (const action of all) {
		const next = act(callout, state, action);
		if (!('refused' in next)) state = next;
	}
	return state.events.map(({ action }) => action);
}
const path = (count: number) => ({ seed: 7, fault: null, actions: pathOf(count) });

it('is the very debrief of the core, as plain data', async () => {
	const { actions } = path(5);
	const made = await debriefFor(combi, path(5));
	expect(made).toEqual(debrief(callout, replay(callout, actions), await evidenceFor(combi)));
	expect(JSON.parse(JSON.stringify(made))).toEqual(made);
});

it('leaves the server free while a long path is gone through', async () => {
	const long = path(60);
	await debriefFor(combi, path(1));
	const delay = monitorEventLoopDelay({ resolution: 5 });
	delay.enable();
	const began = performance.now();
	await debriefFor(combi, long);
	const tookMs = performance.now() - began;
	delay.disable();
	const longestMs = delay.max / 1e6;
	// Worked out where the server answers, it would be held up for all of that time.
	expect(longestMs).toBeLessThan(tookMs / 3);
});

it('tells with a typed error what cannot be worked out, and goes on with the next', async () => {
	const bad = { seed: 7, fault: null, actions: [{ kind: 'check', check: 'no-such-check' }] as Action[] };
	await expect(debriefFor(combi, bad)).rejects.toThrow(WeighingFailed);
	await expect(debriefFor(combi, { ...path(1), fault: 'no-such-fault' })).rejects.toThrow(/no-such-fault/);
	expect((await debriefFor(combi, path(1))).path.length).toBe(3);
});

it('tells whoever waits when the worker dies, and starts another for the next', async () => {
	const waiting = [debriefFor(combi, path(20)), debriefFor(combi, path(3))];
	const told = Promise.allSettled(waiting);
	await new Promise((later) => setTimeout(later, 100));
	await endWeighing();
	for (const outcome of await told) expect(outcome).toMatchObject({ status: 'rejected', reason: expect.any(WeighingFailed) });
	expect((await debriefFor(combi, path(1))).path.length).toBe(3);
});

it('works a debrief out once for everyone who asks', async () => {
	const { callouts, learnerId } = freshService();
	const at = doSome(callouts, learnerId, begun(callouts, learnerId), 2);
	callouts.act(at.attemptId, learnerId, { kind: 'leave', told: [] }, at.seq);
	const [one, other] = await Promise.all([callouts.debrief(at.attemptId, learnerId), callouts.debrief(at.attemptId, learnerId)]);
	if (one.outcome !== 'debriefed' || other.outcome !== 'debriefed') throw new Error(`${one.outcome}, ${other.outcome}`);
	expect(other.debrief).toBe(one.debrief);
});
