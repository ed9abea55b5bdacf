import { describe, expect, it } from 'vitest';
import { act } from '#shared/callout/act.ts';
import { bandOf, trueValue } from '#shared/callout/take-check.ts';
import type { Action } from '#shared/callout/action.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import { debrief } from '#shared/marking/debrief.ts';
import { fillWhy, readingReasons, whyRead } from '#shared/marking/reasons.ts';
import { callouts, curing, leave, pack, repair, start, table } from './walk.ts';
import { stock } from '../../sampled.ts';

const sample = callouts(4, 81_000);

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
		expect(debrief(callout, state, table).takeAway).toMatch(/^Before "Fit a new gas valve.*isolate the (electricity|gas)/);
	});

	it('of a visit that was stopped says no warning twice, and leaves it to the act itself', () => {
		const [callout] = sample;
		const actions: Action[] = [
			{ kind: 'step', step: 'open-casing' },
			{ kind: 'check', check: 'look-inlet-filter' },
			{ kind: 'check', check: 'look-inlet-filter' },
			{ kind: 'remedy', remedy: 'fit-gas-valve', sure: 'guess' }
		];
		const state = actions.reduce((at, action) => {
			const next = act(callout, at, action);
			if ('refused' in next) throw new Error(next.refused);
			return next;
		}, start());
		const { sheet, takeAway } = debrief(callout, state, table);
		const said = [...sheet.lines.map(({ says }) => says), takeAway].join(' ');
		for (const { why, dangerous } of pack.rules.safety) expect(said.split(why).length - 1, why).toBeLessThanOrEqual(dangerous ? 0 : 1);
		for (const says of state.events.at(-1)!.says) expect(said).not.toContain(says);
		expect(sheet.byCriterion.safety.got).toBe(0);
	});

	it('is the same each time', () => {
		const { state } = soundPath(sample[0], table);
		expect(debrief(sample[0], state, table)).toEqual(debrief(sample[0], state, table));
	});
});

describe('a reason for each reading', () => {
	const words = [{ word: 'dark', below: 0.5 }, { word: 'dim', below: 1 }, { word: 'lit' }];

	it('is the one for the word that the true value has, or for the span that it lies in', () => {
		const why = [
			{ when: ['dark', 'dim'], says: 'no supply' },
			{ when: 'lit', says: 'supplied' }
		];
		expect([0, 0.7, 1].map((value) => whyRead({ why, words }, value))).toEqual(['no supply', 'no supply', 'supplied']);
		const spans = [{ below: 10, says: 'whole' }, { says: 'open' }];
		expect([9.9, 10, Infinity].map((value) => whyRead({ why: spans }, value))).toEqual(['whole', 'open', 'open']);
		expect(whyRead({ why: 'one for all', words }, 1)).toBe('one for all');
	});

	it('takes a side', () => {
		for (const { pack: one } of stock)
			for (const { id, why } of one.checks)
				for (const { says } of typeof why === 'string' ? [{ says: why }] : why)
					expect(says, id).not.toMatch(/ or (it|one|not|did|does|was|is|open|whole)\b/);
	});

	it('says that a sense was taken in, where it was', () => {
		const check = pack.checks.find(({ id }) => id === 'press-cartridge-pin')!;
		const before: Action[] = ['open-casing', 'isolate-electricity', 'prove-dead'].map((step) => ({ kind: 'step', step }));
		const taken = callouts(40, 90_000).map((callout) => {
			const state = [...before, ...Array.from({ length: 4 }, (): Action => ({ kind: 'check', check: check.id }))].reduce((at, action) => {
				const next = act(callout, at, action);
				if ('refused' in next) throw new Error(next.refused);
				return next;
			}, start());
			const wrong = state.readings.findIndex(({ value }) => value !== bandOf(check, trueValue(callout, check, 'none', false)));
			return { callout, state, wrong };
		});
		const misjudged = taken.find(({ wrong }) => wrong >= 0)!;
		const reasons = readingReasons(misjudged.callout, misjudged.state, table);
		expect(reasons[misjudged.wrong].why).toMatch(/^Misjudged: it was "/);
		expect(reasons.filter(({ why }) => why.startsWith('Misjudged')).length).toBeLessThan(4);
	});
});

describe('filling a reason', () => {
	it('puts in the figures of the run, to the digits asked for, and leaves what it does not know', () => {
		expect(fillWhy('{a} and {b:0}, not {c:1}', { a: 41.26, b: 9.5 })).toBe('41.3 and 10, not {c:1}');
	});
});
