/** What a learner practised between two dates, in sums: by family and area, by kind of drill, and what is held now. */
import { eq, min } from 'drizzle-orm';
import { groupBy } from '#shared/quantity/group-by.ts';
import { areas } from '#shared/scenario/areas.ts';
import { dateOf, dayOf } from '#shared/review/memory/learner-day.ts';
import { skillsMap, type Remembered } from '#shared/review/progress/skills-map.ts';
import { tallyOf, type Tally } from '#shared/review/progress/tally.ts';
import type { Database } from '../database/open.ts';
import { reviewLogIn } from '../database/review-log.ts';
import { attempt, member, review, sitting, sittingItem, type ReviewRow } from '../database/schema.ts';
import type { Practice } from '../practice/practice.ts';

export interface TallyLine extends Omit<Tally, 'skill'> {
	/** Null for a kind of drill. */
	readonly family: string | null;
	/** Of the area, or of the kind of drill. */
	readonly name: string;
}

export interface HeldSkill extends Pick<Remembered, 'now' | 'shown' | 'night' | 'nightsAgo'> {
	readonly name: string;
}

export interface PracticeDone {
	/** By the learner's own clock, without the gaps in which they were elsewhere [min]. */
	readonly minutes: number;
	/** Of the learner's days, how many had any practice in them. */
	readonly days: number;
	readonly callouts: readonly TallyLine[];
	readonly drills: readonly TallyLine[];
	/** Skills that were ever tried, as they are held now, and how many there are to try. */
	readonly skills: readonly HeldSkill[];
	readonly taught: number;
	/** What the callouts were made from. */
	readonly packs: readonly { readonly family: string; readonly hash: string; readonly callouts: number }[];
}

export function practisedIn(db: Database, { memories, plans }: Pick<Practice, 'memories' | 'plans'>) {
	const log = reviewLogIn(db);
	const familyName = (id: string) => plans.families.get(id) ?? id;

	/** All lines of the log but those of papers. */
	function practiced(learnerId: string): ReviewRow[] {
		const sat = db
			.select({ attempt: sittingItem.attempt, drill: sittingItem.drill })
			.from(sittingItem)
			.innerJoin(sitting, eq(sitting.id, sittingItem.sitting))
			.innerJoin(member, eq(member.id, sitting.member))
			.where(eq(member.learner, learnerId))
			.all();
		const ids = new Set(sat.flatMap((row) => row.attempt ?? row.drill ?? []));
		return log.all(learnerId).filter((row) => !ids.has((row.attempt ?? row.drill)!));
	}

	/** One line each: the first that a callout added is of its own skill, and the others are of what was misread on the way. */
	const own = (rows: readonly ReviewRow[]) => [...groupBy(rows, ({ attempt, drill }) => attempt ?? drill)].map(([, lines]) => lines[0]!);

	function named(tally: Tally): TallyLine {
		const { skill: id, ...sums } = tally;
		const skill = plans.skills.get(id);
		if (skill?.kind === 'area') return { family: familyName(skill.family), name: areas[skill.area], ...sums };
		// Of what is no longer taught, the id is all that is known.
		return { family: null, name: skill?.name ?? id, ...sums };
	}

	function packsOf(learnerId: string, callouts: readonly ReviewRow[]): PracticeDone['packs'] {
		const counted = new Set(callouts.map((row) => row.attempt));
		const rows = db
			.select({ id: attempt.id, family: attempt.family, hash: attempt.packHash })
			.from(attempt)
			.where(eq(attempt.learner, learnerId))
			.all();
		const made = groupBy(
			rows.filter(({ id }) => counted.has(id)),
			({ hash }) => hash
		);
		return [...made].map(([hash, some]) => ({ family: familyName(some[0]!.family), hash, callouts: some.length }));
	}

	function heldBy(learnerId: string, now: number): HeldSkill[] {
		const map = skillsMap([...plans.skills.values()], [...memories.of(learnerId).values()], now, memories.schedulerOf(learnerId));
		const entries = [...map.rows.flatMap((row) => row.entries), ...map.drills].flatMap((entry) => entry ?? []);
		return entries.flatMap(({ skill, remembered }) => {
			if (!remembered) return [];
			const { now, shown, night, nightsAgo } = remembered;
			return [{ name: skill.name, now, shown, night, nightsAgo }];
		});
	}

	return {
		/** When anything was practised first [ms since 1970]; null where nothing was. */
		first: (learnerId: string): number | null =>
			db
				.select({ at: min(review.at) })
				.from(review)
				.where(eq(review.learner, learnerId))
				.get()
				?.at?.getTime() ?? null,

		/** @param from, to  the learner's days, both counted: `2026-03-29` */
		between(learnerId: string, from: string, to: string, zone: string, now: number): PracticeDone {
			const dated = practiced(learnerId).map((row) => ({ row, date: dateOf(dayOf(row.at.getTime(), zone)) }));
			const counted = dated.filter(({ date }) => date >= from && date <= to);
			const rows = counted.map(({ row }) => row);
			const callouts = own(rows.filter((row) => row.attempt !== null));
			return {
				minutes: rows.reduce((sum, { minutes }) => sum + minutes, 0),
				days: new Set(counted.map(({ date }) => date)).size,
				callouts: tallyOf(callouts).map(named).sort(byName),
				drills: tallyOf(rows.filter((row) => row.drill !== null))
					.map(named)
					.sort(byName),
				skills: heldBy(learnerId, now),
				taught: plans.skills.size,
				packs: packsOf(learnerId, callouts)
			};
		}
	};
}

const byName = (a: TallyLine, b: TallyLine) => `${a.family} ${a.name}`.localeCompare(`${b.family} ${b.name}`, 'en-GB');
