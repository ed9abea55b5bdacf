import { describe, expect, it } from 'vitest';
import { act } from '#shared/callout/act.ts';
import type { Action } from '#shared/callout/action.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import { debrief } from '#shared/marking/debrief.ts';
import { fillWhy } from '#shared/marking/reasons.ts';
import { callouts, curing, leave, repair, start, table } from './walk.ts';

const sample = callouts(6, 81_000);

describe('a debrief', () => {
	it('explains every reading with the figures of its own run', () => {
		const bits: number[] = [];
		for (const callout of sample) {
			const { state } = soundPath(callout, table);
			const { reasons } = debrief(callout, state, table);
			expect(reasons.map(({ event, check, text }) => ({ event, check, text }))).toEqual(
				state.readings.map(({ event, check, text }) => ({ event, check, text }))
			);
			for (const reason of reasons) {
				expect(reason.why, reason.check).not.toMatch(/[{}]/);
				expect(reason.sound).not.toBe('');
				expect(reason.bits).toBeGreaterThanOrEqual(0);
			}
			bits.push(Math.max(...reasons.map((reason) => reason.bits)));
		}
		// A complaint may say it all; over a few callouts, readings must have told something.
		expect(bits.filter((most) => most > 0.2).length).toBeGreaterThan(sample.length / 2);
	});

	it('lays the sound path beside the path taken, with minutes and money', () => {
		for (const callout of sample) {
			const guessed = leave(callout, repair(callout, start(), curing(callout)));
			const made = debrief(callout, guessed, table);
			const sound = soundPath(callout, table).state;
			expect(made.path).toHaveLength(guessed.events.length);
			expect(made.soundPath).toHaveLength(sound.events.length);
			expect(made.cost).toEqual({ minutes: guessed.minutes, spent: guessed.spent, soundMinutes: sound.minutes, soundSpent: sound.spent });
			expect(made.fault.id).toBe(callout.fault!.id);
			expect(made.takeAway).not.toBe('');
			for (const step of made.soundPath) {
				const sum = Object.values(step.suspicion).reduce((a, b) => a + b, 0);
				expect(sum).toBeGreaterThan(0.5);
				expect(sum).toBeLessThanOrEqual(1 + 1e-9);
			}
		}
	});

	it('of a visit that was stopped takes away the act that stopped it, not a lesser one before', () => {
		const [callout] = sample;
		const lesser: Action = { kind: 'check', check: 'look-inlet-filter' };
		const dangerous: Action = { kind: 'remedy', remedy: 'fit-gas-valve', sure: 'guess' };
		const state = [lesser, { kind: 'step', step: 'open-casing' } satisfies Action, dangerous].reduce((at, action) => {
			const next = act(callout, at, action);
			if ('refused' in next) throw new Error(next.refused);
			return next;
		}, start());
		expect(state.ended).toBe('stopped');
		expect(debrief(callout, state, table).takeAway).toMatch(/electricity on|gas on/);
	});

	it('is the same each time', () => {
		const { state } = soundPath(sample[0], table);
		expect(debrief(sample[0], state, table)).toEqual(debrief(sample[0], state, table));
	});
});

describe('filling a reason', () => {
	it('puts in the figures of the run, to the digits asked for, and leaves what it does not know', () => {
		expect(fillWhy('{a} and {b:0}, not {c:1}', { a: 41.26, b: 9.5 })).toBe('41.3 and 10, not {c:1}');
	});
});
