/** What the people of a cohort have practised and hold: of those who are on its register now, and of nobody else. */
import { and, gte, inArray, sql } from 'drizzle-orm';
import { cohortMap, personOf, weakestAreas, type CohortMap, type Person, type WeakArea } from '#shared/review/progress/cohort-map.ts';
import type { Database } from '../database/open.ts';
import { review, type MemberRow } from '../database/schema.ts';
import type { Practice } from '../practice/practice.ts';

const dayMs = 86_400_000;

export interface Practised {
	/** By the learner's own clock, over so many times 24 hours up to now [min]. */
	readonly minutesIn7Days: number;
	readonly minutesIn30Days: number;
	/** Null where nothing was practised yet. */
	readonly last: Date | null;
}

export interface CohortSkills {
	readonly map: CohortMap;
	/** The three areas to take up in the next lesson. */
	readonly weakest: readonly WeakArea[];
}

const nothing: Practised = { minutesIn7Days: 0, minutesIn30Days: 0, last: null };

export function practisedIn(db: Database, { memories, plans }: Pick<Practice, 'memories' | 'plans'>) {
	return {
		/** By the id of the member, for those who have joined. Two queries, however many they are. */
		minutes(members: readonly MemberRow[], now: number): ReadonlyMap<string, Practised> {
			const learners = members.flatMap(({ learner }) => learner ?? []);
			const last = db
				.select({ learner: review.learner, last: sql<number>`max(${review.at})` })
				.from(review)
				.where(inArray(review.learner, learners))
				.groupBy(review.learner)
				.all();
			const lasts = new Map(last.map((row) => [row.learner, row.last]));
			const week = now - 7 * dayMs;
			const lately = db
				.select({
					learner: review.learner,
					in7: sql<number>`total(case when ${review.at} >= ${week} then ${review.minutes} end)`,
					in30: sql<number>`total(${review.minutes})`
				})
				.from(review)
				.where(and(inArray(review.learner, learners), gte(review.at, new Date(now - 30 * dayMs))))
				.groupBy(review.learner)
				.all();
			const minutes = new Map(lately.map((row) => [row.learner, row]));
			return new Map(
				members.flatMap(({ id, learner }): [string, Practised][] => {
					if (learner === null) return [];
					const { in7 = 0, in30 = 0 } = minutes.get(learner) ?? {};
					const at = lasts.get(learner);
					return [[id, at === undefined ? nothing : { minutesIn7Days: in7, minutesIn30Days: in30, last: new Date(at) }]];
				})
			);
		},

		/** Their maps folded into one, by the ids of members. */
		skills(members: readonly MemberRow[], now: number): CohortSkills {
			const skills = [...plans.skills.values()];
			const people = members.flatMap(({ id, learner }): Person[] => {
				if (learner === null) return [];
				return [personOf(id, memories.of(learner).values(), now, memories.schedulerOf(learner))];
			});
			const map = cohortMap(skills, people);
			return { map, weakest: weakestAreas(map) };
		},

		/** Short names of families by id. */
		families: plans.families
	};
}
