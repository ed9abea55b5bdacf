import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { idleAfterMinutes, ownMinutes } from '$lib/server/practice/own-minutes.ts';

const minute = 60_000;
const at = (...minutes: number[]) => minutes.map((one) => 1_800_000_000_000 + one * minute);

describe('minutes by the learner’s own clock', () => {
	it('run from the beginning to the end', () => {
		expect(ownMinutes(at(0, 1, 3, 3.5, 8))).toBe(8);
	});

	it('leave out the gaps in which the learner was elsewhere', () => {
		expect(ownMinutes(at(0, 2, 62, 64))).toBe(4);
		expect(ownMinutes(at(0, 2, 62, 64, 1440, 1441))).toBe(5);
	});

	it('count a gap of five minutes and not one a moment longer', () => {
		expect(ownMinutes(at(0, idleAfterMinutes))).toBe(5);
		expect(ownMinutes([0, idleAfterMinutes * minute + 1])).toBe(0);
	});

	it('are none for nothing, for one moment, and for a clock that was set back', () => {
		expect(ownMinutes([])).toBe(0);
		expect(ownMinutes(at(3))).toBe(0);
		expect(ownMinutes(at(3, 1))).toBe(0);
		expect(ownMinutes(at(3, 1, 2))).toBe(1);
	});

	it('are never more than the time that passed, nor less than none', () => {
		fc.assert(
			fc.property(fc.array(fc.nat(3_600_000), { maxLength: 60 }), (gaps) => {
				let now = 0;
				const moments = [0, ...gaps.map((gap) => (now += gap))];
				const minutes = ownMinutes(moments);
				expect(minutes).toBeGreaterThanOrEqual(0);
				expect(minutes).toBeLessThanOrEqual(now / minute + 1e-9);
			})
		);
	});
});
