import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { act, start } from '#shared/callout/act.ts';
import { makeCallout } from '#shared/callout/make.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { viewOf } from '#shared/callout/view-of.ts';
import { mostSeed } from '#shared/quantity/random.ts';
import { smallPack } from '../scenario/small-family.ts';
import { anyPath } from './any-path.ts';
import { check, demand, does, step } from './drive.ts';

const pack = smallPack();
const seeds = fc.nat({ max: mostSeed });

describe('the view of a running callout', () => {
	it('is the same whichever fault hides behind the same words', () => {
		// Before anything is done, callouts that share household and complaint must look alike, whatever is wrong.
		const first = new Map<string, string>();
		let compared = 0;
		for (let seed = 0; seed < 200; seed++) {
			const callout = makeCallout(pack, seed);
			const key = `${callout.household.says}|${callout.complaintSays}`;
			const view = JSON.stringify(viewOf(callout, start()));
			if (first.has(key)) compared++;
			expect(view).toBe(first.get(key) ?? view);
			first.set(key, view);
		}
		expect(compared).toBeGreaterThan(150);
	});

	it('carries no seed, severity, cure or hidden parameter on any path', () => {
		fc.assert(
			fc.property(seeds, anyPath(pack), (seed, path) => {
				const callout = makeCallout(pack, seed);
				const state = path.reduce<CalloutState>((at, action) => {
					const next = act(callout, at, action);
					return 'refused' in next ? at : next;
				}, start());
				const text = JSON.stringify(viewOf(callout, state));
				for (const key of ['seed', 'severity', 'cured', 'fault', 'because', 'sound', 'faulty', 'facts', 'reads', 'weight']) {
					expect(text).not.toContain(`"${key}":`);
				}
				if (callout.severity < 1) expect(text).not.toContain(String(callout.severity).slice(0, 8));
			}),
			{ numRuns: 60 }
		);
	});

	it('shows no reading but those taken', () => {
		const callout = makeCallout(pack, 3);
		const state = does(callout, [demand('tap'), check('tap-temperature')]);
		const view = viewOf(callout, state);
		expect(view.readings.map(({ check, noticed }) => [check, noticed])).toEqual([
			['display', true],
			['tap-feel', true],
			['tap-temperature', false]
		]);
		expect(view.readings[2]).toMatchObject({ name: 'Tap temperature', place: 'tap', area: 'heat-transfer', unit: 'degC' });
	});

	it('says what stands in the way, but leaves safety to the learner', () => {
		const callout = makeCallout(pack, 3);
		const closed = viewOf(callout, start()).remedies.find(({ id }) => id === 'fit-element')!;
		expect(closed.unmet).toEqual(['The casing must be off: take the casing off first.']);
		const open = viewOf(callout, does(callout, [step('open-casing')])).remedies.find(({ id }) => id === 'fit-element')!;
		expect(open.unmet).toEqual([]);
	});

	it('marks steps that stand, instruments in the van and checks taken', () => {
		const callout = makeCallout(pack, 3);
		const view = viewOf(
			callout,
			does(callout, [step('isolate-electricity'), step('prove-dead'), step('open-casing'), check('element-ohms')])
		);
		expect(view.steps.filter(({ stands }) => stands).map(({ id }) => id)).toEqual(
			expect.arrayContaining(['isolate-electricity', 'prove-dead', 'open-casing', 'restore-gas', 'restore-water'])
		);
		expect(view.checks.find(({ id }) => id === 'element-ohms')).toMatchObject({ fetchMinutes: 0, taken: 1, instrument: 'Meter' });
		expect(view.checks.find(({ id }) => id === 'flue-analysis')).toMatchObject({ fetchMinutes: pack.rules.fetchMinutes, taken: 0 });
		expect(view.events.map(({ did }) => did)).toEqual([
			'Isolate the electricity',
			'Prove dead',
			'Take the casing off',
			'Element resistance'
		]);
	});
});
