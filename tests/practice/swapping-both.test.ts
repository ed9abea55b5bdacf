// 15. Someone who cannot use a multimeter changes motor and cartridge together. One of the two was good. Common practice, no source.
import { expect, test } from 'vitest';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { act } from '#shared/callout/act.ts';
import type { Action } from '#shared/callout/action.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { replay } from '#shared/callout/replay.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import { mark } from '#shared/marking/mark.ts';
import { calloutsWith, combi } from '../sampled.ts';

const table = await evidenceFor(combi);

const swapBoth: readonly Action[] = [
	{ kind: 'demand', demand: 'tap' },
	{ kind: 'check', check: 'feel-heating-pipe' },
	{ kind: 'step', step: 'isolate-electricity' },
	{ kind: 'step', step: 'prove-dead' },
	{ kind: 'step', step: 'open-casing' },
	{ kind: 'step', step: 'isolate-water' },
	{ kind: 'remedy', remedy: 'fit-diverter-motor', sure: 'guess' },
	{ kind: 'remedy', remedy: 'fit-diverter-cartridge', sure: 'guess' },
	{ kind: 'step', step: 'restore-water' },
	{ kind: 'step', step: 'close-casing' },
	{ kind: 'step', step: 'restore-electricity' },
	{ kind: 'prove' },
	{ kind: 'leave', told: [] }
];

const soundParts = (callout: Callout, state: CalloutState) =>
	state.remedies.filter(({ remedy }) => remedy.startsWith('fit-') && !callout.fault!.cured.includes(remedy)).length;

test.each(['diverter-passing', 'diverter-motor-failed', 'diverter-stuck-heating'])(
	'with %s, swapping both cures and wastes one; proving wastes none',
	(fault) => {
		for (const callout of calloutsWith(fault, 8)) {
			const swapped = replay(callout, swapBoth);
			expect(swapped.cured).toBe(true);
			expect(soundParts(callout, swapped)).toBe(1);

			const proved = soundPath(callout, table).state;
			expect(proved.cured).toBe(true);
			expect(['lost', 'laboured']).toContain(mark(callout, swapped, table).recall);
			expect(mark(callout, swapped, table).byCriterion.parts.got).toBeLessThan(mark(callout, proved, table).byCriterion.parts.got);
			expect(proved.spent).toBeLessThan(swapped.spent);
		}
	}
);

test('a volt reading in each demand and a look at the pin tell motor from cartridge', () => {
	const looks: readonly Action[] = [
		{ kind: 'step', step: 'open-casing' },
		{ kind: 'demand', demand: 'tap' },
		{ kind: 'check', check: 'measure-diverter-tap' },
		{ kind: 'demand', demand: 'heating' },
		{ kind: 'check', check: 'measure-diverter-heating' },
		{ kind: 'check', check: 'look-motor-pin' }
	];
	const pin = (callout: Callout) => {
		let state = replay(callout, []);
		for (const action of looks) state = act(callout, state, action) as CalloutState;
		const volts = state.readings.filter(({ check }) => check.startsWith('measure-diverter')).map(({ value }) => value);
		for (const value of volts) expect(value).toBeGreaterThan(200);
		return state.readings.at(-1)!.text;
	};
	for (const callout of calloutsWith('diverter-motor-failed', 10)) expect(pin(callout)).toBe('does not travel');
	for (const callout of calloutsWith('diverter-passing', 10)) expect(pin(callout)).toBe('travels from end to end');
});
