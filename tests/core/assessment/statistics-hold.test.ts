/** What holds of item statistics whatever the marks, and what is not said where it cannot be. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { itemStatistics } from '#shared/assessment/statistics.ts';

const outOf = [100, 100, 10];
const row = fc.tuple(fc.integer({ min: 0, max: 100 }), fc.integer({ min: 0, max: 100 }), fc.constantFrom(0, 10));
const rows = fc.array(row, { minLength: 3, maxLength: 40 });

describe('item statistics', () => {
	it('lie within their bounds', () => {
		fc.assert(
			fc.property(rows, (rows) => {
				const { items, reliability, distribution, mean, sitters } = itemStatistics(rows, outOf);
				expect(mean).toBeGreaterThanOrEqual(0);
				expect(mean).toBeLessThanOrEqual(210);
				expect(distribution.reduce((sum, { count }) => sum + count, 0)).toBe(sitters);
				for (const { facility, discrimination, alphaWithout } of items) {
					if (facility.value) {
						const { low, share, high } = facility.value;
						expect(0 <= low && low <= share! && share! <= high && high <= 1).toBe(true);
					}
					if (discrimination.value) {
						const { r, interval } = discrimination.value;
						expect(r >= -1 && r <= 1).toBe(true);
						expect(interval.value === null || (interval.value.low <= r && r <= interval.value.high)).toBe(true);
					}
					expect(alphaWithout.value ?? 0).toBeLessThanOrEqual(1 + 1e-12);
				}
				if (!reliability.value) return;
				const { alpha, interval, standardError } = reliability.value;
				expect(alpha).toBeLessThanOrEqual(1 + 1e-12);
				expect(standardError).toBeGreaterThanOrEqual(0);
				const { low, high } = interval.value ?? { low: alpha, high: alpha };
				expect(low <= alpha + 1e-12 && alpha <= high + 1e-12).toBe(true);
			})
		);
	});

	it('do not change with the order of the sitters', () => {
		fc.assert(
			fc.property(rows, (rows) => {
				const [found, turned] = [itemStatistics(rows, outOf), itemStatistics(rows.toReversed(), outOf)];
				expect(turned.distribution).toEqual(found.distribution);
				expect(turned.sd).toBeCloseTo(found.sd!, 8);
				expect(turned.reliability.why).toBe(found.reliability.why);
				if (found.reliability.value) expect(turned.reliability.value!.alpha).toBeCloseTo(found.reliability.value.alpha, 8);
				found.items.forEach(({ discrimination: { value } }, slot) => {
					if (value) expect(turned.items[slot].discrimination.value!.r).toBeCloseTo(value.r, 8);
				});
			})
		);
	});

	it('move with the items where those change places', () => {
		fc.assert(
			fc.property(rows, (rows) => {
				const found = itemStatistics(rows, outOf);
				const turned = itemStatistics(
					rows.map((one) => one.toReversed()),
					outOf.toReversed()
				);
				expect(turned.items.toReversed().map(({ facility }) => facility)).toEqual(found.items.map(({ facility }) => facility));
				if (found.reliability.value) expect(turned.reliability.value!.alpha).toBeCloseTo(found.reliability.value.alpha, 8);
			})
		);
	});

	it('have an alpha that no change of scale moves, and an error that moves with it', () => {
		fc.assert(
			fc.property(rows, (rows) => {
				const found = itemStatistics(rows, outOf).reliability.value;
				const doubled = itemStatistics(
					rows.map((one) => one.map((marks) => 2 * marks)),
					outOf.map((most) => 2 * most)
				).reliability.value;
				if (!found) return expect(doubled).toBeNull();
				expect(doubled!.alpha).toBeCloseTo(found.alpha, 8);
				expect(doubled!.standardError).toBeCloseTo(2 * found.standardError, 6);
			})
		);
	});
});

describe('what is not said', () => {
	const some = (sitters: number) => Array.from({ length: sitters }, (_, n) => [n % 2 === 0 ? 80 : 30, n % 3 === 0 ? 90 : 20, 10]);

	it('a facility below ten sitters', () => {
		expect(itemStatistics(some(9), outOf).items[0].facility).toEqual({ value: null, why: expect.stringMatching(/10 sitters/) });
		expect(itemStatistics(some(10), outOf).items[0].facility.value!.share).toBeCloseTo(0.55, 12);
	});

	it('a correlation of an item in which all have the same', () => {
		expect(itemStatistics(some(12), outOf).items[2].discrimination).toEqual({ value: null, why: expect.stringMatching(/same mark/) });
	});

	it('a correlation without grey below thirty sitters', () => {
		expect(itemStatistics(some(29), outOf).items[0].discrimination.value!.greyed).toBe(true);
		expect(itemStatistics(some(30), outOf).items[0].discrimination.value!.greyed).toBe(false);
	});

	it('an interval of a correlation of three sitters, or of an alpha of two', () => {
		expect(itemStatistics(some(3), outOf).items[0].discrimination.value!.interval.why).toMatch(/four sitters/);
		expect(itemStatistics(some(3), outOf).reliability.value!.interval.value).not.toBeNull();
		expect(itemStatistics(some(2), outOf).reliability.value!.interval.why).toMatch(/three sitters/);
	});

	it('an interval where items agree without exception, which would have no width', () => {
		const alike = Array.from({ length: 12 }, (_, n) => [8 * n, 8 * n, 0.8 * n]);
		const { items } = itemStatistics(alike, outOf);
		expect(items[2].discrimination.value).toMatchObject({ r: expect.closeTo(1, 9), interval: { value: null, why: expect.any(String) } });
		const { reliability } = itemStatistics(
			alike.map(([a, b]) => [a, b]),
			[100, 100]
		);
		expect(reliability.value).toMatchObject({ alpha: expect.closeTo(1, 9), interval: { value: null, why: expect.any(String) } });
		const against = Array.from({ length: 12 }, (_, n) => [8 * n, 90 - 4 * n, 0]);
		expect(itemStatistics(against, outOf).items[0].discrimination.value!.interval.value).toBeNull();
	});

	it('an alpha of one sitter, of one item, or where all have the same total', () => {
		const whyNot = (rows: number[][], most: number[]) => itemStatistics(rows, most).reliability;
		expect(whyNot(some(1), outOf)).toEqual({ value: null, why: expect.stringMatching(/two sitters/) });
		expect(whyNot([[40], [60], [80]], [100])).toEqual({ value: null, why: expect.stringMatching(/two items/) });
		expect(
			whyNot(
				[
					[40, 60],
					[60, 40],
					[50, 50]
				],
				[100, 100]
			)
		).toEqual({ value: null, why: expect.stringMatching(/same total/) });
	});

	it('a correlation with other items, or an alpha without it, where there are none or too few', () => {
		expect(itemStatistics([[40], [60]], [100]).items[0].discrimination).toEqual({ value: null, why: expect.stringMatching(/no other/) });
		const two = itemStatistics(
			some(12).map(([a, b]) => [a, b]),
			[100, 100]
		);
		expect(two.items[0].alphaWithout).toEqual({ value: null, why: expect.stringMatching(/three items/) });
	});

	it('anything of nobody', () => {
		const found = itemStatistics([], outOf);
		expect(found).toMatchObject({ sitters: 0, mean: null, sd: null, reliability: { value: null } });
		expect(found.items.every(({ facility, discrimination }) => facility.value === null && discrimination.value === null)).toBe(true);
	});

	it('statistics of marks that cannot be', () => {
		expect(() => itemStatistics([[101, 0, 0]], outOf)).toThrow(RangeError);
		expect(() => itemStatistics([[-1, 0, 0]], outOf)).toThrow(RangeError);
		expect(() => itemStatistics([[1, 0]], outOf)).toThrow(RangeError);
		expect(() => itemStatistics([[Number.NaN, 0, 0]], outOf)).toThrow(RangeError);
	});
});
