import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hash32 } from '#shared/quantity/hash32.ts';
import { chance } from '#shared/quantity/random.ts';

const draws = (count: number, draw: () => number): number[] => Array.from({ length: count }, draw);
const meanOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
const correlationOf = (one: readonly number[], other: readonly number[]): number => {
	const [m1, m2] = [meanOf(one), meanOf(other)];
	const product = meanOf(one.map((value, i) => (value - m1) * ((other[i] as number) - m2)));
	return product / Math.sqrt(meanOf(one.map((v) => (v - m1) ** 2)) * meanOf(other.map((v) => (v - m2) ** 2)));
};

describe('determinism', () => {
	it('gives the same numbers for the same seed and labels', () => {
		fc.assert(
			fc.property(fc.integer(), fc.array(fc.oneof(fc.string(), fc.integer())), (seed, labels) => {
				const [one, other] = [chance(seed, ...labels), chance(seed, ...labels)];
				for (let i = 0; i < 5; i++) {
					expect(one.uniform()).toBe(other.uniform());
					expect(one.normal()).toBe(other.normal());
					expect(one.whole(0, 99)).toBe(other.whole(0, 99));
				}
			})
		);
	});

	it('keeps the bits that it had when callouts were first made', () => {
		// No source: recorded here. A change of these means that every stored seed gives another callout.
		const stream = chance(20240117, 'callout', 3);
		expect([stream.uniform(), stream.normal(), stream.whole(1, 1000), stream.between(-1, 1)]).toEqual([
			0.701043969471901, -0.6294740005396307, 772, 0.8621444470632369
		]);
	});
});

describe('streams', () => {
	it('differ for every seed, label, order and kind of label', () => {
		const first = (seed: number, ...labels: (string | number)[]) => chance(seed, ...labels).uniform();
		const all = [first(1), first(2), first(1.5), first(1, 'a'), first(1, 'a', 'b'), first(1, 'b', 'a'), first(1, 'ab'), first(1, 'a|s1:b')];
		const kinds = [first(1, 1), first(1, '1'), first(11), first(1, ''), first(-1), first(1e300), first(2 ** 32 + 1)];
		expect(new Set([...all, ...kinds]).size).toBe(all.length + kinds.length);
	});

	it('do not meet among 100,000 neighbours', () => {
		const seen = new Set<number>();
		for (let seed = 0; seed < 100; seed++) for (let label = 0; label < 1000; label++) seen.add(chance(seed, 'check', label).uniform());
		expect(seen.size).toBe(100_000);
	});

	it('are even and unrelated from one neighbour to the next', () => {
		// 10,000 draws: the standard error of the mean is 0.0029 and of a correlation 0.01; five of them are allowed.
		const firsts = Array.from({ length: 10_001 }, (_, label) => chance(7, 'reading', label).uniform());
		expect(Math.abs(meanOf(firsts) - 0.5)).toBeLessThan(0.0145);
		expect(Math.abs(correlationOf(firsts.slice(1), firsts.slice(0, -1)))).toBeLessThan(0.05);
		const [one, other] = [chance(7, 'a'), chance(7, 'b')];
		expect(Math.abs(correlationOf(draws(10_000, one.uniform), draws(10_000, other.uniform)))).toBeLessThan(0.05);
	});

	it('come from a hash whose finish has the published values', () => {
		// MurmurHash3, 32 bits, of no bytes: seed 0 gives 0, seed 1 gives 0x514e28b7, seed 0xffffffff gives 0x81f16f39 (from memory of its test vectors).
		expect([hash32('', 0), hash32('', 1) >>> 0, hash32('', 0xffffffff) >>> 0]).toEqual([0, 0x514e28b7, 0x81f16f39]);
	});

	it('come from a hash that one bit of seed turns over by half', () => {
		let turned = 0;
		const trials = 2000;
		for (let i = 0; i < trials; i++) {
			let bits = hash32(`n${i}`, 5) ^ hash32(`n${i ^ 1}`, 5);
			for (; bits !== 0; bits &= bits - 1) turned++;
		}
		// 16 of 32 bits on average, standard error 0.06; pairs are counted twice.
		expect(Math.abs(turned / trials - 16)).toBeLessThan(0.5);
	});
});

describe('distributions', () => {
	const count = 200_000;

	it('are even from 0 up to 1', () => {
		const stream = chance(1, 'uniform');
		const values = draws(count, stream.uniform);
		expect(values.every((value) => value >= 0 && value < 1)).toBe(true);
		// Chi-square over 20 cells, 19 degrees of freedom: 1 in 100,000 exceed 57.
		const cells = new Array<number>(20).fill(0);
		for (const value of values) cells[Math.floor(value * 20)] = (cells[Math.floor(value * 20)] as number) + 1;
		expect(cells.reduce((sum, n) => sum + (n - count / 20) ** 2 / (count / 20), 0)).toBeLessThan(57);
	});

	it('are normal to the stated limits, and cut at 3', () => {
		const stream = chance(1, 'normal');
		const values = draws(count, stream.normal);
		const moment = (power: number) => meanOf(values.map((value) => value ** power));
		// Standard errors at 200,000: mean 0.0022, deviation 0.0016, skewness 0.0055, kurtosis about 0.009; five are allowed.
		expect(Math.abs(moment(1))).toBeLessThan(0.011);
		expect(Math.abs(Math.sqrt(moment(2)) - 0.99)).toBeLessThan(0.008);
		expect(Math.abs(moment(3))).toBeLessThan(0.03);
		expect(Math.abs(moment(4) / moment(2) ** 2 - 2.8)).toBeLessThan(0.06);
		expect(values.every((value) => value >= -3 && value <= 3)).toBe(true);
		// Within one and two deviations: 0.6827 and 0.9545 of a normal (any table); the thin tails shift these by under 0.006.
		expect(Math.abs(meanOf(values.map((value) => (Math.abs(value) < 1 ? 1 : 0))) - 0.6827)).toBeLessThan(0.01);
		expect(Math.abs(meanOf(values.map((value) => (Math.abs(value) < 2 ? 1 : 0))) - 0.9545)).toBeLessThan(0.006);
	});

	it('keep to their bounds', () => {
		fc.assert(
			fc.property(fc.integer(), fc.integer({ min: -1000, max: 1000 }), fc.nat({ max: 50 }), (seed, from, width) => {
				const stream = chance(seed);
				const between = stream.between(from, from + width);
				expect(between).toBeGreaterThanOrEqual(from);
				expect(between).toBeLessThanOrEqual(from + width);
				const whole = stream.whole(from, from + width);
				expect(Number.isInteger(whole) && whole >= from && whole <= from + width).toBe(true);
			})
		);
		expect(() => chance(1).whole(2, 1)).toThrow(RangeError);
		expect(() => chance(1).whole(0.5, 2)).toThrow(RangeError);
	});
});

describe('picking', () => {
	it('follows the weights, and never takes what weighs nothing', () => {
		const stream = chance(3, 'pick');
		const taken = { a: 0, b: 0, c: 0 };
		const weights = { a: 1, b: 0, c: 3 };
		for (let i = 0; i < 20_000; i++) taken[stream.pick(['a', 'b', 'c'] as const, (item) => weights[item])]++;
		expect(taken.b).toBe(0);
		// Standard error 0.0031; five are allowed.
		expect(Math.abs(taken.c / 20_000 - 0.75)).toBeLessThan(0.016);
	});

	it('is even without weights', () => {
		const stream = chance(3, 'even');
		const counts = new Map<string, number>();
		for (let i = 0; i < 20_000; i++) {
			const item = stream.pick(['w', 'x', 'y', 'z']);
			counts.set(item, (counts.get(item) ?? 0) + 1);
		}
		for (const count of counts.values()) expect(Math.abs(count / 20_000 - 0.25)).toBeLessThan(0.016);
		expect(counts.size).toBe(4);
	});

	it('refuses nothing to pick from and weights that make no sense', () => {
		expect(() => chance(1).pick([])).toThrow(RangeError);
		expect(() => chance(1).pick([1, 2], () => 0)).toThrow(RangeError);
		expect(() => chance(1).pick([1, 2], () => -1)).toThrow(RangeError);
		expect(() => chance(1).pick([1, 2], () => NaN)).toThrow(RangeError);
	});
});
