import { describe, expect, it } from 'vitest';
import { act } from '#shared/callout/act.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { follow as followRun } from '#shared/callout/follow.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { entropyBits } from '#shared/diagnosis/expected-cost.ts';
import { suspicion } from '#shared/diagnosis/suspicion.ts';
import { debrief } from '#shared/marking/debrief.ts';
import { calloutsWith } from '../../sampled.ts';
import { callouts, curing, leave, pack, repair, start, table } from './walk.ts';

const listened = (callout: Callout): CalloutState =>
	(
		[
			{ kind: 'demand', demand: 'tap' },
			{ kind: 'check', check: 'listen-fan-over-time' }
		] as const
	).reduce<CalloutState>((state, action) => act(callout, state, action) as CalloutState, start());

describe('the run beside a reason', () => {
	it('is the one that was followed, with that of this very machine without its fault', () => {
		const listen = pack.checks.find(({ id }) => id === 'listen-fan-over-time')!;
		for (const callout of calloutsWith('fan-slow', 3)) {
			const state = listened(callout);
			const { trace } = debrief(callout, state, table).reasons.at(-1)!;
			expect(trace!.taken).toEqual(state.readings.at(-1)!.trace);
			expect(trace!.sound).toEqual(followRun(pack, callout.sound, listen, 'tap'));
			const highest = (run: { lines: readonly { values: readonly number[] }[] }) => Math.max(...run.lines[0].values);
			expect(highest(trace!.sound)).toBeGreaterThan(highest(trace!.taken));
		}
	});

	it('is the same as the sound one where the reading was taken after the cure', () => {
		let compared = 0;
		for (const callout of callouts(3, 82_000)) {
			const state = leave(callout, repair(callout, start(), curing(callout)));
			const cured = state.remedies.find((done) => done.cured)!.event;
			for (const reason of debrief(callout, state, table).reasons) {
				if (reason.event <= cured || !reason.trace) continue;
				expect(reason.trace.taken).toEqual(reason.trace.sound);
				compared++;
			}
		}
		expect(compared).toBeGreaterThan(0);
	});

	it('is not there for a reading that was taken at one moment', () => {
		const [callout] = callouts(1);
		const { reasons } = debrief(callout, listened(callout), table);
		for (const { check, trace } of reasons) expect(Boolean(trace), check).toBe(Boolean(pack.checks.find(({ id }) => id === check)!.over));
	});
});

it('begins with what the complaint alone bore, whatever was done after it', () => {
	for (const callout of callouts(2, 83_000)) {
		const { faults } = suspicion(pack, table, callout.complaint.id, []);
		for (const state of [listened(callout), leave(callout, repair(callout, start(), curing(callout)))]) {
			const { prior, path } = debrief(callout, state, table);
			expect(prior.entropyBits).toBe(entropyBits(faults));
			expect(Object.keys(prior.suspicion)).toEqual(Object.keys(path[0].suspicion));
			for (const [id, share] of Object.entries(prior.suspicion)) expect(share).toBe(faults[pack.faults.findIndex((f) => f.id === id)]);
			expect(Object.values(prior.suspicion).reduce((a, b) => a + b, 0)).toBeGreaterThan(0.5);
		}
	}
});
