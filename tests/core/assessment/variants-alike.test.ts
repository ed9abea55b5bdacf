/** Variants of one paper: what is never in two of them, and that they are as hard as each other. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measures, sharingBySlot, spreadOf } from '#shared/assessment/spread.ts';
import type { CalloutItem } from '#shared/assessment/variant.ts';
import { equalVariants, TooFewCallouts } from '#shared/assessment/variants.ts';
import { chance } from '#shared/quantity/random.ts';

const faults = ['a', 'b', 'c', 'd', 'e'];

function callout(seed: number, fault: string, minutes: number, spent = 0, bits = 3, complaint = 'cold'): CalloutItem {
	const difficulty = { minutes, spent, cost: minutes + spent, bits, checks: 4 };
	return { kind: 'callout', family: 'one', area: 'gas', fault, complaint, seed, packHash: 'a', difficulty };
}

/** Callouts as unlike as real ones are: costs between them differ tenfold. */
function drawn(seed: number, slots: number, each: number): CalloutItem[][] {
	return Array.from({ length: slots }, (_, slot) =>
		Array.from({ length: each }, (_, n) => {
			const stream = chance(seed, slot, n);
			const spent = stream.pick([0, 20, 60, 200]);
			return callout(1000 * slot + n, stream.pick(faults), stream.between(25, 130), spent, stream.between(1, 4));
		})
	);
}

const papers = fc.record({
	seed: fc.nat(),
	slots: fc.integer({ min: 1, max: 6 }),
	variants: fc.integer({ min: 1, max: 5 }),
	spare: fc.integer({ min: 0, max: 8 })
});
const idOf = ({ fault, seed }: CalloutItem) => `${fault} ${seed}`;

describe('variants', () => {
	it('have a callout of its own pool in each place, and none has the numbers of another', () => {
		fc.assert(
			fc.property(papers, ({ seed, slots, variants, spare }) => {
				const pools = drawn(seed, slots, variants + spare);
				const found = equalVariants(pools, variants, seed);
				expect(found).toHaveLength(variants);
				for (const items of found) {
					expect(items).toHaveLength(slots);
					items.forEach((item, slot) => expect(pools[slot]).toContain(item));
				}
				const seeds = found.flat().map((item) => item.seed);
				expect(new Set(seeds).size).toBe(seeds.length);
			}),
			{ numRuns: 40 }
		);
	});

	it('follow from the seed and the callouts, whatever order those come in', () => {
		fc.assert(
			fc.property(papers, ({ seed, slots, variants, spare }) => {
				const pools = drawn(seed, slots, variants + spare);
				const found = equalVariants(pools, variants, seed);
				expect(equalVariants(pools, variants, seed)).toEqual(found);
				expect(
					equalVariants(
						pools.map((pool) => pool.toReversed()),
						variants,
						seed
					)
				).toEqual(found);
			}),
			{ numRuns: 25 }
		);
	});

	it('are others with another seed', () => {
		const pools = drawn(1, 5, 20);
		const ids = [1, 2, 3].map((seed) => equalVariants(pools, 4, seed).flat().map(idOf).join());
		expect(new Set(ids).size).toBe(3);
	});

	it('differ by little where chance alone would have them differ by much', () => {
		for (let seed = 0; seed < 8; seed++) {
			const pools = drawn(seed, 6, 12);
			const byChance = spreadOf(Array.from({ length: 4 }, (_, variant) => pools.map((pool) => pool[variant])));
			const found = spreadOf(equalVariants(pools, 4, seed));
			expect(found.share, `seed ${seed}: ${byChance.share} by chance`).toBeLessThan(0.1);
			expect(found.share).toBeLessThan(byChance.share / 2);
		}
	});

	it('come out alike in each place where that can be had', () => {
		const alike = [40, 40.1, 40.2].map((minutes, n) => callout(n, 'a', minutes));
		const unlike = [30, 50, 90, 20].map((minutes, n) => callout(10 + n, 'a', minutes));
		const [first, ...others] = equalVariants([[...unlike, ...alike]], 3, 7).map(([item]) => item.seed);
		expect([first, ...others].sort()).toEqual([0, 1, 2]);
	});

	it('have no fault twice while there is another, however well that would even out', () => {
		const one = [callout(1, 'a', 40), callout(2, 'a', 40), callout(3, 'b', 70)];
		const other = [callout(11, 'a', 40), callout(12, 'a', 40), callout(13, 'a', 40)];
		expect(equalVariants([one, other], 1, 3)[0].map(({ fault }) => fault)).toEqual(['b', 'a']);
	});

	it('share no fault in a place while its callouts have enough others, and else as few as can be', () => {
		fc.assert(
			fc.property(papers, ({ seed, slots, variants, spare }) => {
				const pools = drawn(seed, slots, variants + spare);
				for (const found of [equalVariants(pools, variants, seed), equalVariants(pools, variants, seed + 1)])
					for (const [slot, pool] of pools.entries()) {
						const there = new Set(pool.map(({ fault }) => fault)).size;
						const hidden = new Set(found.map((items) => items[slot].fault)).size;
						expect(hidden, `place ${slot} of ${slots}`).toBe(Math.min(there, variants));
					}
			}),
			{ numRuns: 40 }
		);
	});

	it('share none either where places are filled from the same callouts, each fault as often as an even share', () => {
		const shared = fc.record({
			seed: fc.nat(),
			slots: fc.integer({ min: 1, max: 5 }),
			variants: fc.integer({ min: 1, max: 5 }),
			others: fc.integer({ min: 0, max: 4 }),
			spare: fc.integer({ min: 0, max: 2 })
		});
		fc.assert(
			fc.property(shared, ({ seed, slots, variants, others, spare }) => {
				const kinds = variants + others;
				const each = Math.ceil((slots * variants) / kinds) + spare;
				const pool = Array.from({ length: kinds * each }, (_, n) =>
					callout(n, String(n % kinds), chance(seed, n).between(25, 130), 0, 3, String(n % 3))
				);
				const found = equalVariants(Array(slots).fill(pool), variants, seed);
				for (let slot = 0; slot < slots; slot++) expect(new Set(found.map((items) => items[slot].fault)).size).toBe(variants);
				expect(sharingBySlot(found)).toEqual(Array(slots).fill(0));
			}),
			{ numRuns: 40 }
		);
	});

	it('share no fault in a place, however much harder the others are', () => {
		const pool = ['a', 'a', 'a', 'b', 'c'].map((fault, n) => callout(n, fault, fault === 'a' ? 50 : 100 * n));
		const found = equalVariants([pool], 3, 4).map(([{ fault }]) => fault);
		expect(found.sort()).toEqual(['a', 'b', 'c']);
	});

	it('share no complaint in a place where others come to nearly the same, and do where they are much harder', () => {
		const complaintsOf = (minutes: number) => {
			const pool = [callout(1, 'a', 50, 0, 3, 'cold'), callout(2, 'b', 50, 0, 3, 'cold'), callout(3, 'c', minutes, 0, 3, 'noisy')];
			return equalVariants([pool], 2, 1)
				.map(([{ complaint }]) => complaint)
				.sort();
		};
		expect(complaintsOf(51)).toEqual(['cold', 'noisy']);
		expect(complaintsOf(90)).toEqual(['cold', 'cold']);
	});

	it('are not rather cheap than alike', () => {
		const cheap = [10, 12, 14].map((minutes, n) => callout(n, 'a', minutes));
		const dear = [200, 202, 204].map((minutes, n) => callout(10 + n, 'a', minutes));
		expect(spreadOf(equalVariants([[...cheap, ...dear]], 3, 1)).totals[0].minutes).toBeGreaterThan(100);
	});

	it('are not made of too few callouts, nor of ones with the same numbers', () => {
		expect(() => equalVariants([[callout(1, 'a', 40)]], 2, 1)).toThrow(TooFewCallouts);
		expect(() => equalVariants([[callout(1, 'a', 40), callout(1, 'b', 40)]], 2, 1)).toThrow(/place 1 .* has 1/);
		expect(equalVariants([], 3, 1)).toEqual([[], [], []]);
	});
});

describe('the spread of variants', () => {
	it('tells the difference between the most and the least, and its share of the mean', () => {
		const found = spreadOf([[callout(1, 'a', 40), callout(2, 'b', 50)], [callout(3, 'a', 110)]]);
		expect(found.totals.map(({ minutes }) => minutes)).toEqual([90, 110]);
		expect(found.by.minutes).toEqual({ least: 90, most: 110, mean: 100, difference: 20, share: 0.2 });
		expect(found.by.bits).toMatchObject({ least: 3, most: 6 });
		expect(found.share).toBe(found.by.bits.share);
	});

	it('is nothing between variants without callouts, and there is none of no variant', () => {
		const { by, share } = spreadOf([[], []]);
		expect(share).toBe(0);
		for (const measure of measures) expect(by[measure]).toMatchObject({ mean: 0, difference: 0, share: 0 });
		expect(() => spreadOf([])).toThrow(RangeError);
	});
});

describe('faults that variants share', () => {
	it('are counted by place, in every variant that has them', () => {
		const [a, b, c] = ['a', 'b', 'c'].map((fault, n) => callout(n, fault, 40));
		expect(
			sharingBySlot([
				[a, b, c],
				[b, b, c],
				[c, a, c]
			])
		).toEqual([0, 2, 3]);
		expect(sharingBySlot([[a, a]])).toEqual([0, 0]);
		expect(sharingBySlot([])).toEqual([]);
	});
});
