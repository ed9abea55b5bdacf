import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { askEvery, askingInWords, asksNow, stabilitiesIn, type Every } from '#shared/review/coaching/fade.ts';
import { fading } from '#shared/review/coaching/thresholds.ts';

const rank = (every: Every) => every ?? Infinity;

describe('coaching', () => {
	it('asks before every check while no skill of the family is begun', () => {
		expect(askEvery([])).toBe(1);
		expect(asksNow(1, 0) && asksNow(1, 1) && asksNow(1, 7)).toBe(true);
	});

	it('fades by the mean stability, at the thresholds that the data has', () => {
		for (const [at, { below, every }] of fading.entries()) {
			expect(askEvery([below - 0.01])).toBe(every);
			expect(askEvery([below])).toBe(fading[at + 1]?.every ?? null);
		}
		const [{ below }] = fading;
		expect(askEvery([below / 2, below * 1.4])).toBe(1);
		expect(askEvery([below / 2, below * 1.6])).toBe(2);
	});

	it('never asks oftener for a skill that is held longer', () => {
		const days = fc.double({ min: 0.01, max: 3000, noNaN: true });
		fc.assert(
			fc.property(fc.array(days, { minLength: 1, maxLength: 11 }), days, (stabilities, more) => {
				const held = stabilities.map((stability, at) => (at === 0 ? stability + more : stability));
				expect(rank(askEvery(held))).toBeGreaterThanOrEqual(rank(askEvery(stabilities)));
			})
		);
	});

	it('counts the skills of the family, and neither drills nor those of another', () => {
		const memories = [
			{ skill: 'one/gas', stability: 3 },
			{ skill: 'one-more/gas', stability: 90 },
			{ skill: 'drill/one', stability: 80 },
			{ skill: 'one/air', stability: 5 }
		];
		expect(stabilitiesIn('one', memories)).toEqual([3, 5]);
	});

	it('asks before the first check and then before each second, fourth, or none, and says so', () => {
		const asked = (every: Every) =>
			Array.from({ length: 9 }, (_, taken) => asksNow(every, taken)).flatMap((asks, at) => (asks ? [at] : []));
		expect(asked(2)).toEqual([0, 2, 4, 6, 8]);
		expect(asked(4)).toEqual([0, 4, 8]);
		expect(asked(null)).toEqual([]);
		expect(askingInWords(2)).toBe('Coaching asks before every second check now.');
		expect(new Set([1, 2, 4, null].map((every) => askingInWords(every as Every))).size).toBe(4);
	});
});
