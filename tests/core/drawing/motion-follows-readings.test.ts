import { describe, expect, it } from 'vitest';
import { holdsFrom, paceAt, paceOfWord, paceWord } from '$lib/bench/drawing/places/motion';
import { symbols } from '$lib/bench/drawing/symbols';
import { stock } from '../../sampled.ts';

const fan = { id: 'a-fan', symbol: 'fan' };
const seen = (over: Partial<Parameters<typeof paceAt>[1][number]> = {}) => ({
	event: 3,
	place: fan.id,
	demand: 'tap' as const,
	text: 'runs',
	value: 1,
	unit: '',
	...over
});

describe('the moving part of a place', () => {
	it('moves once it was noticed moving, there, under the demand that stands', () => {
		expect(paceAt(fan, [seen()], 'tap', 3)).toBe('steady');
		expect(paceAt(fan, [seen({ text: 'silent' })], 'tap', 3)).toBe('still');
	});

	it('is not known where nothing was taken, whatever was taken elsewhere', () => {
		expect(paceAt(fan, [], 'tap', 0)).toBeNull();
		expect(paceAt(fan, [seen({ place: 'another-fan' })], 'tap', 0)).toBeNull();
	});

	it('is not known under a demand that it was not noticed under', () => {
		expect(paceAt(fan, [seen()], 'heating', 0)).toBeNull();
		expect(paceAt(fan, [seen({ demand: 'none' })], 'tap', 0)).toBeNull();
	});

	it('is not known any more once the demand was set again or the appliance was changed', () => {
		const events = (['demand', 'check', 'demand', 'check', 'remedy', 'step', 'judge'] as const).map((kind, index) => ({ kind, index }));
		expect(holdsFrom(events.slice(0, 2))).toBe(0);
		expect(holdsFrom(events.slice(0, 4))).toBe(2);
		expect(holdsFrom(events)).toBe(4);
		expect(paceAt(fan, [seen({ event: 3 })], 'tap', holdsFrom(events.slice(0, 4)))).toBe('steady');
		expect(paceAt(fan, [seen({ event: 3 })], 'tap', holdsFrom(events))).toBeNull();
	});

	it('goes by the newest reading that tells, and passes over those that say nothing of it', () => {
		expect(paceAt(fan, [seen(), seen({ event: 4, text: 'winds down' })], 'tap', 3)).toBe('slow');
		expect(paceAt(fan, [seen(), seen({ event: 4, text: '230', unit: 'V', value: 230 })], 'tap', 3)).toBe('steady');
	});

	it('goes by turns counted as by turns heard', () => {
		expect(paceAt(fan, [seen({ text: '4200', value: 4200, unit: '1/min' })], 'tap', 3)).toBe('steady');
		expect(paceAt(fan, [seen({ text: '0', value: 0, unit: '1/min' })], 'tap', 3)).toBe('still');
	});

	it('never moves for a symbol that has nothing to move', () => {
		expect(paceAt({ id: 'a-fan', symbol: 'dial' }, [seen()], 'tap', 0)).toBeNull();
	});

	it('has a moving part in the kit and a word for each pace', () => {
		for (const [symbol, words] of Object.entries(paceOfWord)) {
			expect(symbols[symbol]?.moves, symbol).toBeDefined();
			for (const pace of Object.values(words)) expect(paceWord(symbol, pace)).toMatch(/^[a-z ]+$/);
		}
		expect(Object.keys(symbols).filter((symbol) => symbols[symbol].moves)).toEqual(expect.arrayContaining(Object.keys(paceOfWord)));
	});
});

/** Checks at a moving part that say nothing of whether it moves in the run: by hand at rest, or of something else there. */
const saysNothing = ['spin-turbine'];

describe.each(stock)('$id', ({ pack: { drawing, checks } }) => {
	it('knows every word that a check at a moving part may return', () => {
		const moving = drawing.places.filter(({ symbol }) => symbol in paceOfWord);
		expect(moving.length).toBeGreaterThan(0);
		for (const { id, symbol } of moving) {
			const worded = checks.filter((check) => check.place === id && check.words && !saysNothing.includes(check.id));
			expect(worded.length, `${id} is looked at or listened to`).toBeGreaterThan(0);
			const unknown = worded.flatMap((check) => check.words!.map(({ word }) => word)).filter((word) => !(word in paceOfWord[symbol]));
			expect(unknown, id).toEqual([]);
		}
	});
});
