/** Where a callout stands in a round tells nothing of how well its skill is remembered, which the learner can look up. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planRound } from '#shared/review/round/plan-round.ts';
import type { RoundItem } from '#shared/review/round/round.ts';
import { isDue, recallAt } from '#shared/review/memory/schedule.ts';
import { evening, everyRound, kindOfItem, nightOf } from './nights.ts';

const areas = ['sensing', 'gas', 'air', 'flame', 'circulation'];
/** Each area shown some evenings after the one before it: the first is remembered least. */
const nightWith = (order: readonly string[], seed: number) =>
	nightOf({
		log: order.map((area, index) => ({ skill: `family-0/${area}`, at: evening(index * 2), recall: 'sound', minutes: 5 })),
		minutes: 60,
		now: evening(40),
		seed
	});
const of = (why: RoundItem['why'], items: readonly RoundItem[]) =>
	items.filter((item) => item.why === why && item.kind === 'callout').map(kindOfItem);

describe('callouts that are due', () => {
	it('stand in an order that the seed makes: each is first now and then, and last', () => {
		const firsts = new Map<string, number>();
		const lasts = new Map<string, number>();
		for (let seed = 0; seed < 400; seed++) {
			const due = of('due', planRound(nightWith(areas, seed)).items);
			expect(due.toSorted()).toEqual(areas.toSorted());
			firsts.set(due[0]!, (firsts.get(due[0]!) ?? 0) + 1);
			lasts.set(due.at(-1)!, (lasts.get(due.at(-1)!) ?? 0) + 1);
		}
		// 80 of 400 each where all are alike, with a standard deviation of 8: five of them either way.
		for (const counts of [firsts, lasts])
			for (const area of areas) {
				expect(counts.get(area), area).toBeGreaterThan(40);
				expect(counts.get(area), area).toBeLessThan(120);
			}
	});

	it('are in the round or not by recall alone, whatever the seed', () => {
		fc.assert(
			fc.property(fc.shuffledSubarray(areas, { minLength: 2 }), fc.nat(), (order, seed) => {
				const night = { ...nightWith(order, seed), minutes: 15 };
				const due = of('due', planRound(night).items);
				expect(due.length).toBeGreaterThanOrEqual(2);
				expect(due.toSorted()).toEqual(order.slice(0, due.length).toSorted());
			})
		);
	});

	it('never follow one of their own area, in any round of any seed, and nothing else is let in or left out for the order', () => {
		everyRound((night, { items, left }) => {
			for (let seed = 0; seed < 5; seed++) {
				const other = planRound({ ...night, seed });
				const sorted = (list: readonly RoundItem[]) => list.map(({ skill, why }) => `${why} ${skill}`).toSorted();
				expect(sorted(other.items)).toEqual(sorted(items));
				expect(other.left).toBe(left);
				other.items.slice(1).forEach((item, index) => {
					if (kindOfItem(item) === kindOfItem(other.items[index]!))
						expect([item.why, item.skill]).toEqual(['new', other.items[index]!.skill]);
				});
			}
		});
	});

	it('do not lead with the least remembered more often than chance would have it, over nights of all kinds', () => {
		let rounds = 0;
		let expected = 0;
		let leads = 0;
		everyRound((night, { items }) => {
			const due = items.filter((item) => item.why === 'due' && item.kind === 'callout');
			if (due.length < 2 || new Set(due.map(kindOfItem)).size < due.length) return;
			const recall = new Map(
				night.memories.filter((one) => isDue(one, night.now)).map((one) => [one.skill, recallAt(one, night.now, night.scheduler)])
			);
			const least = Math.min(...due.map(({ skill }) => recall.get(skill)!));
			rounds++;
			expected += 1 / due.length;
			if (recall.get(due[0]!.skill) === least) leads++;
		});
		expect(rounds).toBeGreaterThan(20);
		// Four standard deviations, each round's being at most a half.
		expect(leads).toBeLessThan(expected + 4 * 0.5 * Math.sqrt(rounds));
	});
});

it('callouts that are brought forward stand in such an order too', () => {
	// Shown three times and last on the evening before, one a little after the other: nothing is due, and the first is remembered least.
	const log = [-9, -5, -1].flatMap((day) =>
		areas.map((area, index) => ({ skill: `family-0/${area}`, at: evening(day) + index * 60_000, recall: 'fluent' as const, minutes: 5 }))
	);
	const firsts = new Map<string, number>();
	for (let seed = 0; seed < 400; seed++) {
		const night = nightOf({ log, minutes: 60, seed });
		const skills = night.skills.filter(({ id }) => night.memories.some(({ skill }) => skill === id));
		const early = of('early', planRound({ ...night, skills }).items);
		expect(early.toSorted()).toEqual(areas.toSorted());
		firsts.set(early[0]!, (firsts.get(early[0]!) ?? 0) + 1);
	}
	for (const area of areas) expect(firsts.get(area), area).toBeGreaterThan(40);
});
