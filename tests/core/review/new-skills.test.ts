/** What is begun on a night, and by whom. */
import { describe, expect, it } from 'vitest';
import { minutesOf } from '#shared/review/round/minutes-of.ts';
import { planRound } from '#shared/review/round/plan-round.ts';
import { isDue } from '#shared/review/memory/schedule.ts';
import { afterRound, curriculum, evening, everyRound, families, family, nightOf } from './nights.ts';

describe('a skill begun', () => {
	it('has all that comes before it begun already', () => {
		everyRound((night, { items }) => {
			const begun = new Set(night.memories.map(({ skill }) => skill));
			for (const { skill } of items.filter(({ why }) => why === 'new'))
				expect(night.skills.find(({ id }) => id === skill)!.after.filter((id) => !begun.has(id))).toEqual([]);
		});
	});

	it('comes with its first two or three callouts together; a kind of drill comes once', () => {
		const { least, most } = curriculum.round.together;
		everyRound((_, { items }) => {
			for (const skill of new Set(items.filter(({ why }) => why === 'new').map((item) => item.skill))) {
				const places = items.flatMap((item, index) => (item.skill === skill ? [index] : []));
				expect(places.at(-1)! - places[0]).toBe(places.length - 1);
				if (skill.startsWith('drill/')) expect(places.length).toBe(1);
				else {
					expect(places.length).toBeGreaterThanOrEqual(least);
					expect(places.length).toBeLessThanOrEqual(most);
				}
			}
		});
	});

	it('waits while what is due takes the minutes', () => {
		let waited = 0;
		everyRound((night, { items }) => {
			const own = (id: string) =>
				minutesOf(
					night.skills.find((skill) => skill.id === id)!,
					night.log,
					night.cuts
				);
			const due = night.memories.filter((memory) => isDue(memory, night.now)).reduce((sum, { skill }) => sum + own(skill), 0);
			if (due < night.minutes) return;
			waited++;
			expect(items.map(({ why }) => why)).not.toContain('new');
		});
		expect(waited).toBeGreaterThan(10);
	});

	it('waits on such a night even where it would set two of a kind apart, and does so where there are minutes to spare', () => {
		const taught = ['a', 'b', 'c'].map((id) => family(id, ['water-supply', 'gas']));
		const log = taught.map(({ family: { id } }, day) => ({ skill: `${id}/gas`, at: evening(day), recall: 'sound' as const, minutes: 8 }));
		const whys = (minutes: number) =>
			planRound({ ...nightOf({ taught, log, minutes, now: evening(40) }), generators: [] }).items.map(({ why }) => why);
		expect(whys(20)).toEqual(['due']);
		expect(whys(30).slice(0, 3)).toEqual(['due', 'new', 'new']);
	});

	it('is an area and a kind of drill in turn, even where a round has room for one', () => {
		let night = nightOf({ minutes: 10 });
		for (let day = 0; day < 40; day++) {
			night = { ...night, ...afterRound(night, planRound(night).items, () => 'sound'), now: evening(day + 1) };
			const drills = night.memories.filter(({ skill }) => skill.startsWith('drill/')).length;
			// Until every kind of drill is begun.
			if (drills < curriculum.drills.length) expect(Math.abs(night.memories.length - 2 * drills)).toBeLessThanOrEqual(1);
		}
		expect(night.memories.length).toBeGreaterThan(10);
	});

	it('is one of no more than a round of its minutes may begin', () => {
		everyRound((night, { items }) => {
			const begun = new Set(items.filter(({ why }) => why === 'new').map(({ skill }) => skill));
			expect(begun.size).toBeLessThanOrEqual(night.minutes / curriculum.round.minutesPerNew);
		});
	});

	it('is of the family begun, until enough of that is', () => {
		const after = curriculum.round.familyAfter;
		const order = ['water-supply', 'sensing', 'user', 'diverting', 'heat-transfer', 'circulation'];
		const begunIn = (areas: readonly string[]) => {
			const log = areas.flatMap((area) =>
				[-3, -2, -1].map((day) => ({ skill: `family-0/${area}`, at: evening(day), recall: 'fluent' as const, minutes: 6 }))
			);
			const { items } = planRound(nightOf({ taught: families(3), log, minutes: 30 }));
			return new Set(items.flatMap((item) => (item.why === 'new' && item.kind === 'callout' ? [item.family] : [])));
		};
		expect([...begunIn(order.slice(0, after - 1))]).toEqual(['family-0']);
		expect(begunIn(order.slice(0, after))).toContain('family-1');
	});
});

describe('a learner with nothing begun', () => {
	it.each([10, 20, 30])('begins at the root of one family, in %i minutes', (minutes) => {
		const { items, left } = planRound(nightOf({ minutes }));
		expect(items.every(({ why }) => why === 'new')).toBe(true);
		expect(items.filter(({ kind }) => kind === 'callout').length).toBe(minutes === 10 ? 2 : 3);
		expect(new Set(items.filter(({ kind }) => kind === 'callout').map(({ skill }) => skill))).toEqual(new Set(['family-0/water-supply']));
		expect(left).toBe(0);
	});

	it('has drills alone where there is no family, and nothing where there is nothing', () => {
		const night = nightOf({ taught: [] });
		const { items } = planRound(night);
		expect(items.length).toBeGreaterThan(0);
		expect(items.every(({ kind, family }) => kind === 'drill' && family === null)).toBe(true);
		expect(planRound({ ...night, generators: [] })).toEqual({ items: [], left: 0 });
	});
});
