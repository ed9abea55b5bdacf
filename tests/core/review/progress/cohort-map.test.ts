import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { remember } from '#shared/review/memory/schedule.ts';
import { cohortMap, personOf, weakestAreas, type CohortEntry, type Person } from '#shared/review/progress/cohort-map.ts';
import { heldFrom, isHeld } from '#shared/review/progress/held.ts';
import { skillsMap } from '#shared/review/progress/skills-map.ts';
import type { Review } from '#shared/review/skill.ts';
import { anyLogOf, evening, family, nightOf } from '../nights.ts';

const taught = [family('a', ['gas', 'air', 'flame']), family('b', ['gas'])];
const { skills, scheduler, now } = nightOf({ taught });
const person = (id: string, log: readonly Review[]): Person => personOf(id, remember(log, scheduler).values(), now, scheduler);
const shown = (skill: string, day: number, recall: Review['recall']): Review => ({ skill, at: evening(day), recall, minutes: 5 });
const entryOf = (people: readonly Person[], skill: string): CohortEntry => {
	const { rows, drills } = cohortMap(skills, people);
	return [...rows.flatMap(({ entries }) => entries), ...drills].find((entry) => entry?.skill.id === skill)!;
};

describe('the map of a cohort', () => {
	const ann = person('ann', [shown('a/gas', -1, 'fluent'), shown('drill/reading', -1, 'sound')]);
	const ben = person('ben', [shown('a/gas', -1, 'lost')]);
	const cat = person('cat', [shown('a/gas', -200, 'laboured')]);
	const dan = person('dan', []);
	const people = [ann, ben, cat, dan];

	it('is laid out as a learner’s own, nobody on the register or many', () => {
		const own = skillsMap(skills, [], now, scheduler);
		for (const some of [[], people]) {
			const { families, rows, drills } = cohortMap(skills, some);
			expect(families).toEqual(own.families);
			expect(rows.map(({ area, entries }) => [area, entries.map((entry) => entry?.skill.id)])).toEqual(
				own.rows.map(({ area, entries }) => [area, entries.map((entry) => entry?.skill.id)])
			);
			expect(drills.map(({ skill }) => skill.id)).toEqual(own.drills.map(({ skill }) => skill.id));
		}
	});

	it('counts who holds a skill among those who have tried it, and names the others: who lost it last before who forgot it', () => {
		const { held, weak, untried } = entryOf(people, 'a/gas');
		expect(held).toMatchObject({ count: 1, of: 3 });
		expect(weak.map(({ id, isLost }) => [id, isLost])).toEqual([
			['ben', true],
			['cat', false]
		]);
		expect(weak[1].recall).toBeLessThan(heldFrom);
		expect(untried).toEqual(['dan']);
	});

	it('takes the mean over those who hold it, and has none where nobody does: what was just lost is no recall of anything', () => {
		const own = (one: Person) => one.recalled.get('a/gas')!.now;
		expect(entryOf(people, 'a/gas').meanRecall).toBeCloseTo(own(ann), 12);
		expect(entryOf([ben, cat], 'a/gas')).toMatchObject({ meanRecall: null, held: { count: 0, of: 2 } });
		expect(entryOf(people, 'a/air')).toMatchObject({ meanRecall: null, held: { count: 0, of: 0, share: null } });
	});

	it('does not call held what was lost last, however fresh the right answer is', () => {
		expect(isHeld({ now: 1, shown: 'lost' })).toBe(false);
		expect(isHeld({ now: heldFrom, shown: 'laboured' })).toBe(true);
		expect(isHeld({ now: heldFrom - 0.001, shown: 'fluent' })).toBe(false);
	});

	it('has everyone once in each skill, as holding it, weak or untried, whatever they did', () => {
		fc.assert(
			fc.property(fc.array(anyLogOf(skills), { maxLength: 6 }), (logs) => {
				const some = logs.map((log, at) => person(String(at), log));
				const { rows, drills } = cohortMap(skills, some);
				for (const entry of [...rows.flatMap(({ entries }) => entries), ...drills]) {
					if (!entry) continue;
					expect(entry.held.count + entry.weak.length + entry.untried.length).toBe(some.length);
					expect(entry.held.of + entry.untried.length).toBe(some.length);
					expect(new Set([...entry.weak.map(({ id }) => id), ...entry.untried]).size).toBe(entry.weak.length + entry.untried.length);
				}
			}),
			{ numRuns: 60 }
		);
	});
});

describe('the areas in which a cohort is weakest', () => {
	const many = (count: number, from: number, log: readonly Review[]) =>
		Array.from({ length: count }, (_, at) => person(`p${from + at}`, log));

	it('come with the surest first: three of twelve before none of one; what nobody has tried last', () => {
		const people = [
			...many(3, 0, [shown('a/air', -1, 'fluent')]),
			...many(8, 3, [shown('a/air', -1, 'lost')]),
			...many(1, 11, [shown('a/air', -1, 'lost'), shown('a/gas', -1, 'lost')])
		];
		expect(weakestAreas(cohortMap(skills, people)).map(({ area, entry }) => [area, entry.held.count, entry.held.of])).toEqual([
			['air', 3, 12],
			['gas', 0, 1],
			['flame', 0, 0]
		]);
	});

	it('are areas, each once, on the family in which it is weaker', () => {
		const people = many(4, 0, [shown('a/gas', -1, 'fluent'), shown('b/gas', -1, 'lost')]);
		const [first, ...others] = weakestAreas(cohortMap(skills, people));
		expect(first).toMatchObject({ area: 'gas', family: 'b' });
		expect(others.map(({ area }) => area)).not.toContain('gas');
	});

	it('are by mean recall where as many hold them', () => {
		const people = many(4, 0, [shown('a/flame', -300, 'laboured'), shown('a/air', -60, 'laboured')]);
		const found = weakestAreas(cohortMap(skills, people));
		expect(found.slice(0, 2).map(({ area }) => area)).toEqual(['flame', 'air']);
		expect(found[0].entry.held).toEqual(found[1].entry.held);
	});
});
