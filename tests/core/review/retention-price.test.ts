import { describe, expect, it } from 'vitest';
import type { Memory } from '#shared/review/memory/memory.ts';
import { retentionPrice, retentionPrices, retentions, usualPricing, type Pricing } from '#shared/review/memory/retention-price.ts';
import { defaultScheduler, intervalDays, recallAfter, strengthAfter } from '#shared/review/memory/schedule.ts';
import { evening } from './nights.ts';

const { parameters } = defaultScheduler;
const now = evening(0);
const pricing: Pricing = { ...usualPricing, minutesOf: () => 6, cuts: { lostTakes: 1.5 }, now, seed: 1 };
const memoryOf = (skill: string, stability: number, ago: number): Memory => ({
	skill,
	stability,
	difficulty: 5,
	last: evening(-ago),
	shown: 'sound',
	due: now,
	reviews: 3,
	lapses: 0
});
const memories = Array.from({ length: 12 }, (_, index) => memoryOf(`a/${index}`, 2 + index * 3, index));

describe('the price of a desired recall', () => {
	it('is given for each that is offered, from the least to the most', () => {
		const prices = retentionPrices(memories, defaultScheduler, pricing);
		expect(prices.map(({ retention }) => retention)).toEqual([...retentions]);
		expect([...retentions]).toEqual(retentions.toSorted((a, b) => a - b));
		expect(retentions).toContain(defaultScheduler.retention);
	});

	it('rises with it, in minutes and in practices, and buys more recall', () => {
		const prices = retentionPrices(memories, defaultScheduler, pricing);
		prices.slice(1).forEach((price, index) => {
			expect(price.minutesPerDay).toBeGreaterThan(prices[index].minutesPerDay);
			expect(price.practicesPerDay).toBeGreaterThan(prices[index].practicesPerDay);
			expect(price.meanRecall).toBeGreaterThan(prices[index].meanRecall);
		});
	});

	it('counts what was lost for longer: never less, and no more than all of it lost would cost', () => {
		const quick = retentionPrice(memories, defaultScheduler, { ...pricing, cuts: { lostTakes: 1 } });
		const slow = retentionPrice(memories, defaultScheduler, { ...pricing, cuts: { lostTakes: 2 } });
		expect(quick.minutesPerDay).toBeCloseTo(quick.practicesPerDay * 6, 9);
		expect(slow.practicesPerDay).toBe(quick.practicesPerDay);
		expect(slow.minutesPerDay).toBeGreaterThan(quick.minutesPerDay);
		expect(slow.minutesPerDay).toBeLessThan(2 * quick.minutesPerDay);
	});

	it('of a skill is as many practices as its intervals leave room for, where none is lost', () => {
		// So well remembered at what is desired that chance hardly comes in: the same by hand.
		const firm = memoryOf('a/firm', 40, 0);
		let [strength, day, practices] = [strengthAfter(null, 0, 'sound', parameters), 0, 0];
		strength = { ...strength, stability: 40, difficulty: 5 };
		for (;;) {
			const days = intervalDays(strength.stability, 0.97, parameters);
			day += days;
			if (day >= usualPricing.days) break;
			practices++;
			strength = strengthAfter(strength, days, 'sound', parameters);
		}
		expect(practices).toBeGreaterThan(2);
		const seeds = Array.from({ length: 20 }, (_, seed) => seed);
		const once = seeds.map((seed) => retentionPrice([firm], { ...defaultScheduler, retention: 0.97 }, { ...pricing, runs: 1, seed }));
		const untroubled = once.filter(({ minutesPerDay, practicesPerDay }) => Math.abs(minutesPerDay - 6 * practicesPerDay) < 1e-9);
		// At 0.97 and a handful of practices most runs lose none.
		expect(untroubled.length).toBeGreaterThan(10);
		for (const { practicesPerDay } of untroubled) expect(practicesPerDay * usualPricing.days).toBeCloseTo(practices, 9);
	});

	it('of what is not practised in the days looked at is nothing, and its recall is the mean of the curve', () => {
		const firm = memoryOf('a/firm', 1000, 5);
		const price = retentionPrice([firm], { ...defaultScheduler, retention: 0.7 }, { ...pricing, days: 30 });
		const mean = Array.from({ length: 30 }, (_, day) => recallAfter(5 + day, 1000, parameters)).reduce((a, b) => a + b) / 30;
		expect(price).toMatchObject({ minutesPerDay: 0, practicesPerDay: 0 });
		expect(price.meanRecall).toBeCloseTo(mean, 12);
	});

	it('of nothing known is nothing; and the same seed gives the same price', () => {
		expect(retentionPrice([], defaultScheduler, pricing)).toMatchObject({ minutesPerDay: 0, practicesPerDay: 0, meanRecall: 0 });
		expect(retentionPrices(memories, defaultScheduler, pricing)).toEqual(retentionPrices(memories, defaultScheduler, pricing));
	});
});
