/**
 * A backlog never grows without end, and is worked off over several nights. Learners here are drawn from the model itself: what they are
 * asked they have lost with the chance that it gives.
 */
import { describe, expect, it } from 'vitest';
import { chance } from '#shared/quantity/random.ts';
import type { Night } from '#shared/review/round/night.ts';
import { planRound } from '#shared/review/round/plan-round.ts';
import type { Round } from '#shared/review/round/round.ts';
import { isDue, recallAt } from '#shared/review/memory/schedule.ts';
import { afterRound, curriculum, evening, families, nightOf } from './nights.ts';

interface Kept {
	readonly night: Night;
	/** Due at the beginning of each evening. */
	readonly due: number[];
	readonly rounds: Round[];
}

/**
 * So many evenings of a learner who remembers no better than the model says, and a skill never seen before is lost with `firstLost`.
 * @param isAway evenings on which nothing is done
 */
function evenings(first: Night, count: number, { firstLost = 0.5, seed = 1, isAway = (_: number): boolean => false } = {}): Kept {
	let night = first;
	const start = Math.round((first.now - evening(0)) / 86_400_000);
	const due: number[] = [];
	const rounds: Round[] = [];
	for (let day = start; day < start + count; day++) {
		night = { ...night, now: evening(day), seed: day };
		due.push(night.memories.filter((memory) => isDue(memory, night.now)).length);
		if (isAway(day)) continue;
		const round = planRound(night);
		rounds.push(round);
		night = {
			...night,
			...afterRound(night, round.items, (item) => {
				const memory = night.memories.find(({ skill }) => skill === item.skill);
				const lost = memory ? 1 - recallAt(memory, night.now, night.scheduler) : firstLost;
				return chance(seed, day, item.seed).uniform() < lost ? 'lost' : 'sound';
			})
		};
	}
	return { night: { ...night, now: evening(start + count), seed: start + count }, due, rounds };
}

const mean = (numbers: readonly number[]) => numbers.reduce((sum, one) => sum + one, 0) / numbers.length;
const manySkills = families(6);

describe('new work', () => {
	it('is throttled: with ten minutes a night and more to learn than they hold, what is due stays few', () => {
		for (const seed of [1, 2, 3]) {
			const { due, night } = evenings(nightOf({ taught: manySkills, minutes: 10 }), 200, { seed });
			// Half as much again in the second half would be growth; a dozen is two or three nights' work.
			expect(mean(due.slice(100))).toBeLessThan(1.5 * Math.max(2, mean(due.slice(50, 100))));
			expect(Math.max(...due)).toBeLessThanOrEqual(12);
			expect(night.memories.length).toBeGreaterThan(8);
		}
	});

	it('would overwhelm the same learner if it were not', () => {
		// One skill begun every night whatever is due, as a round without the throttle would.
		let night = nightOf({ taught: manySkills, minutes: 10 });
		const due: number[] = [];
		for (let day = 0; day < 60; day++) {
			night = { ...night, now: evening(day), seed: day };
			due.push(night.memories.filter((memory) => isDue(memory, night.now)).length);
			const { items } = planRound(night);
			const next = night.skills.find(({ id }) => !night.memories.some(({ skill }) => skill === id))!;
			const begun = { ...items[0], skill: next.id, minutes: next.minutes };
			night = { ...night, ...afterRound(night, [...items.filter(({ why }) => why === 'due'), begun], () => 'lost') };
		}
		expect(mean(due.slice(40))).toBeGreaterThan(2 * mean(due.slice(10, 20)));
		expect(due.at(-1)).toBeGreaterThan(12);
	});

	it('begins less the more is lost', () => {
		const begun = (firstLost: number) => {
			let night = nightOf({ taught: manySkills, minutes: 20 });
			for (let day = 0; day < 30; day++) {
				night = { ...night, now: evening(day), seed: day };
				const { items } = planRound(night);
				night = { ...night, ...afterRound(night, items, (item) => (chance(7, day, item.seed).uniform() < firstLost ? 'lost' : 'sound')) };
			}
			return night.memories.length;
		};
		expect(begun(0.9)).toBeLessThan(begun(0.1));
	});

	it('waits while what is known would fill the nights, though nothing is due tonight', () => {
		// Lost on the evening before by the dozen, and shown again today: all of it comes back tomorrow.
		const skills = nightOf({ taught: manySkills }).skills.slice(0, 8);
		const log = [-1, 0].flatMap((day) =>
			skills.map(({ id }, index) => ({ skill: id, at: evening(day) - 3_600_000 + index, recall: 'lost' as const, minutes: 8 }))
		);
		const round = planRound(nightOf({ taught: manySkills, log, minutes: 10 }));
		expect(round.items.map(({ why }) => why)).not.toContain('new');
	});
});

describe('after a missed week and a holiday', () => {
	const settled = evenings(nightOf({ taught: manySkills, minutes: 20 }), 26).night;
	const dueOf = (night: Night) => night.memories.filter((memory) => isDue(memory, night.now)).length;

	it.each([7, 28])('of %i days, no night is longer than asked, nothing is begun while anything waits, the worst comes first', (days) => {
		const back: Night = { ...settled, now: settled.now + days * 86_400_000 };
		const waiting = dueOf(back);
		expect(waiting).toBeGreaterThan(4);
		const first = planRound(back);
		expect(first.left).toBe(waiting - first.items.length);
		expect(first.left).toBeGreaterThan(0);
		const longest = Math.max(...first.items.map(({ minutes }) => minutes));
		expect(first.items.reduce((sum, { minutes }) => sum + minutes, 0)).toBeLessThan(20 + longest);
		const { rounds } = evenings(back, 30);
		for (const { items, left } of rounds) if (left > 0) expect(items.map(({ why }) => why)).not.toContain('new');
		const worst = back.memories.toSorted((a, b) => recallAt(a, back.now, back.scheduler) - recallAt(b, back.now, back.scheduler))[0];
		expect(first.items.map(({ skill }) => skill)).toContain(worst.skill);
	});

	it.each([7, 28])('of %i days, the backlog is worked off within a fortnight of nights and more than one', (days) => {
		const back: Night = { ...settled, now: settled.now + days * 86_400_000 };
		const { rounds } = evenings(back, 14);
		const cleared = rounds.findIndex(({ left }) => left === 0);
		expect(cleared).toBeGreaterThan(0);
	});

	it('a learner who comes every other night keeps up as well', () => {
		const { due } = evenings(nightOf({ taught: families(3), minutes: 20 }), 120, { isAway: (day) => day % 2 === 1 });
		expect(mean(due.slice(90))).toBeLessThan(1.5 * Math.max(2, mean(due.slice(45, 90))));
	});
});

it('the cut points of the round are ones that the throttle can work with', () => {
	expect(curriculum.round.busy).toBeLessThan(1);
});
