import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minutesOf } from '#shared/review/round/minutes-of.ts';

const skill = { id: 'a/gas', minutes: 8 };
const cuts = { ownFrom: 3 };
const logOf = (...minutes: number[]) => minutes.map((one, at) => ({ skill: 'a/gas', at, recall: 'sound' as const, minutes: one }));

describe('what a skill takes a learner', () => {
	it("is the curriculum's minutes until there is a time of their own", () => {
		expect(minutesOf(skill, [], cuts)).toBe(8);
		expect(minutesOf(skill, [{ skill: 'a/air', at: 0, recall: 'sound', minutes: 30 }], cuts)).toBe(8);
		expect(minutesOf(skill, logOf(0, 0), cuts)).toBe(8);
	});

	it('is drawn from there to their median: half way at as many times as weigh the same', () => {
		expect(minutesOf(skill, logOf(4, 100, 4), cuts)).toBe(6);
		expect(minutesOf(skill, logOf(2, 4, 6, 100), { ownFrom: 4 })).toBe(6.5);
	});

	it('lies between the two, and nears the median with every time more', () => {
		fc.assert(
			fc.property(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 1, max: 60 }), (count, own) => {
				const after = (times: number) => Math.abs(minutesOf(skill, logOf(...Array<number>(times).fill(own)), cuts) - own);
				expect(after(count)).toBeLessThanOrEqual(Math.abs(8 - own));
				expect(after(count + 1)).toBeLessThanOrEqual(after(count) + 1e-12);
			})
		);
	});

	it('is not moved by one evening on which the door bell rang', () => {
		expect(minutesOf(skill, logOf(5, 5, 5, 5, 5, 5, 180), cuts)).toBe(minutesOf(skill, logOf(5, 5, 5, 5, 5, 5, 5), cuts));
	});
});
