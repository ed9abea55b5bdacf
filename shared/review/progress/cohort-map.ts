/** The skills of a whole cohort at a glance: what its people remember folded into one map, and where it is weakest. */
import { shareOf, type Share } from '#shared/quantity/wilson.ts';
import type { Area } from '#shared/scenario/areas.ts';
import type { Memory, Scheduler } from '../memory/memory.ts';
import { recallAt } from '../memory/schedule.ts';
import type { Skill, SkillId } from '../skill.ts';
import { isHeld, type Recalled } from './held.ts';
import { layOut, type LaidOut } from './skills-map.ts';

/** One of the cohort and what they remember, by skill; what is not in it was never tried. */
export interface Person {
	readonly id: string;
	readonly recalled: ReadonlyMap<SkillId, Recalled>;
}

/** One person's part. @param now [ms since 1970] */
export function personOf(id: string, memories: Iterable<Memory>, now: number, scheduler: Scheduler): Person {
	const recalled = [...memories].map((memory) => [memory.skill, { now: recallAt(memory, now, scheduler), shown: memory.shown }] as const);
	return { id, recalled: new Map(recalled) };
}

export interface Weak {
	readonly id: string;
	/** Recall now, 0 to 1: just after it is shown it is 1, however that was. */
	readonly recall: number;
	readonly isLost: boolean;
}

export interface CohortEntry {
	readonly skill: Skill;
	/** People who hold it, of those who have tried it. */
	readonly held: Share;
	/** Of those who hold it; null where nobody does. Of one who has just lost it, recall says how fresh the answer is, and no more. */
	readonly meanRecall: number | null;
	/** Those of them who do not hold it: first who lost it when it was shown last, then by recall. */
	readonly weak: readonly Weak[];
	readonly untried: readonly string[];
}

export type CohortMap = LaidOut<CohortEntry>;

/** @param skills  all that there are; what a person remembers besides is left out */
export function cohortMap(skills: readonly Skill[], people: readonly Person[]): CohortMap {
	return layOut(skills, (skill) => {
		const all = people.map(({ id, recalled }) => ({ id, remembered: recalled.get(skill.id) ?? null }));
		const tried = all.flatMap(({ id, remembered }) => (remembered ? [{ id, remembered }] : []));
		const recalls = tried.filter(({ remembered }) => isHeld(remembered)).map(({ remembered }) => remembered.now);
		return {
			skill,
			held: shareOf(recalls.length, tried.length),
			meanRecall: recalls.length === 0 ? null : recalls.reduce((sum, recall) => sum + recall, 0) / recalls.length,
			weak: tried
				.filter(({ remembered }) => !isHeld(remembered))
				.map(({ id, remembered }) => ({ id, recall: remembered.now, isLost: remembered.shown === 'lost' }))
				.toSorted((a, b) => Number(b.isLost) - Number(a.isLost) || a.recall - b.recall),
			untried: all.filter(({ remembered }) => remembered === null).map(({ id }) => id)
		};
	});
}

/** An area to take up, on the family in which the cohort is weakest in it. */
export interface WeakArea {
	readonly area: Area;
	readonly family: string;
	readonly entry: CohortEntry;
}

/** Mean recall of those who have tried a skill, where what was lost last counts as nothing; 1 where nobody has. */
function strengthOf({ held, meanRecall, weak }: CohortEntry): number {
	const recalled = weak.reduce((sum, { recall, isLost }) => sum + (isLost ? 0 : recall), held.count * (meanRecall ?? 0));
	return held.of === 0 ? 1 : recalled / held.of;
}

/**
 * The areas in which the cohort is weakest: those of which it is surest that few hold them. Ordered by the upper bound of the share who hold
 * it among those who have tried it, so that three of twelve comes before none of one; then by what they recall of it. What nobody has tried
 * comes last, in the order of the map.
 */
export function weakestAreas({ families, rows }: CohortMap, most = 3): WeakArea[] {
	const cells = rows.flatMap(({ area, entries }) =>
		entries.flatMap((entry, at) => (entry ? [{ area, family: families[at]!, entry }] : []))
	);
	const ordered = cells.toSorted(({ entry: a }, { entry: b }) => a.held.high - b.held.high || strengthOf(a) - strengthOf(b));
	const firstOfArea = ordered.filter((cell, at) => ordered.findIndex(({ area }) => area === cell.area) === at);
	return firstOfArea.slice(0, most);
}
