/** Fairness between variants, equating, times and the judges' standard: what holds, and what is not said where it cannot be. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { equated, equating } from '#shared/assessment/equating.ts';
import { fairness } from '#shared/assessment/fairness.ts';
import { angoff } from '#shared/assessment/standard.ts';
import { timesOf } from '#shared/assessment/times.ts';

const predicted = null;
const some = (length: number, from = 50) => Array.from({ length }, (_, n) => from + (n % 7));

describe('a variant against the others', () => {
	it('differs as the others do from it, where there are two', () => {
		const totals = fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 10, maxLength: 30 });
		fc.assert(
			fc.property(totals, totals, (a, b) => {
				const [first, second] = fairness([
					{ number: 1, totals: a, predicted },
					{ number: 2, totals: b, predicted }
				]);
				const [one, other] = [first.fromOthers.value, second.fromOthers.value];
				if (one === null || other === null) return expect(one).toBe(other);
				expect(one.difference).toBeCloseTo(-other.difference, 10);
				expect(one.standardError).toBeCloseTo(other.standardError, 10);
				expect(one.difference).toBeCloseTo(first.mean! - second.mean!, 10);
			})
		);
	});

	it('is harder where its sitters lie far below the rest, and not where they lie close', () => {
		const of = (third: number[]) =>
			fairness([some(20), some(20), third].map((totals, index) => ({ number: index + 1, totals, predicted })))[2].fromOthers.value!;
		expect(of(some(20, 30))).toMatchObject({ stands: true, difference: -20 });
		expect(of(some(20, 49.5)).stands).toBe(false);
	});

	it('is not compared by one sitter or by none', () => {
		const found = fairness([
			{ number: 1, totals: some(5), predicted },
			{ number: 2, totals: [40], predicted },
			{ number: 3, totals: [], predicted }
		]);
		expect(found[1]).toMatchObject({ sitters: 1, mean: 40, sd: null, fromOthers: { value: null } });
		expect(found[2]).toMatchObject({ sitters: 0, mean: null, sd: null, fromOthers: { value: null } });
	});
});

describe('equating', () => {
	it('is left alone below fifty sitters on either, with the reason', () => {
		expect(equating(some(50), some(49))).toEqual({ value: null, why: expect.stringMatching(/below 50 .* fewest here are 49/) });
		expect(equating(some(50), some(50)).value).not.toBeNull();
	});

	it('is left alone where all have the same', () => {
		expect(equating(Array(60).fill(40), some(60)).value).toBeNull();
	});

	it('turns the mean of one into that of the other, and a form into itself', () => {
		const line = equating(some(60), some(70, 42)).value!;
		expect(equated(line, line.x.mean)).toBeCloseTo(line.y.mean, 10);
		const same = equating(some(60), some(60)).value!;
		for (const total of [0, 31, 100]) expect(equated(same, total)).toBeCloseTo(total, 10);
	});
});

describe('times', () => {
	it('are those of the sitters who began an item', () => {
		const [first, second] = timesOf(
			[
				[10, null],
				[20, null],
				[30, null],
				[40, null],
				[null, null]
			],
			2
		);
		expect(first).toEqual({ slot: 0, begun: 4, median: 25, lower: 17.5, upper: 32.5 });
		expect(second).toEqual({ slot: 1, begun: 0, median: null, lower: null, upper: null });
	});
});

describe('a standard from judges', () => {
	const shares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 3, maxLength: 3 });

	it('lies between the most lenient and the strictest, and does not depend on their order', () => {
		fc.assert(
			fc.property(fc.array(shares, { minLength: 2, maxLength: 8 }), (judges) => {
				const found = angoff(judges, [100, 100, 10])!;
				expect(found.cut).toBeGreaterThanOrEqual(Math.min(...found.byJudge) - 1e-9);
				expect(found.cut).toBeLessThanOrEqual(Math.max(...found.byJudge) + 1e-9);
				expect(angoff(judges.toReversed(), [100, 100, 10])!.cut).toBeCloseTo(found.cut, 9);
				expect(found.standardErrorPercent).toBeCloseTo((100 * found.standardError!) / 210, 9);
			})
		);
	});

	it('weighs a slot by its marks', () => {
		expect(angoff([[1, 0]], [100, 10])!.percent).toBeCloseTo(90.909, 3);
	});

	it('has no error of one judge, and is none of no judge', () => {
		expect(angoff([[0.5, 0.7]], [100, 10])).toMatchObject({ judges: 1, standardError: null, standardErrorPercent: null });
		expect(angoff([], [100, 10])).toBeNull();
		expect(angoff([[]], [])).toBeNull();
	});

	it('refuses what is no share, and a judge who left a slot out', () => {
		expect(() => angoff([[0.5, 1.1]], [100, 10])).toThrow(RangeError);
		expect(() => angoff([[0.5]], [100, 10])).toThrow(RangeError);
	});
});
