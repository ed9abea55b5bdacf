/** All skills at a glance: families across, areas down, and the kinds of drill; with what is remembered of each now and before long. */
import type { Recall } from '#shared/marking/recall.ts';
import type { Area } from '#shared/scenario/areas.ts';
import { areas } from '#shared/scenario/areas.ts';
import { dayOf, type DayNumber } from '../memory/learner-day.ts';
import type { Memory, Scheduler } from '../memory/memory.ts';
import { isDue, recallAt } from '../memory/schedule.ts';
import type { Skill } from '../skill.ts';

const dayMs = 86_400_000;

export interface Remembered {
	/** Recall if it is not practised meanwhile, 0 to 1. */
	readonly now: number;
	readonly in7Days: number;
	readonly in30Days: number;
	readonly isDue: boolean;
	/** [ms since 1970] */
	readonly due: number;
	readonly last: number;
	/** How it was shown last, and on which of the learner's days: just after it is shown, recall is 1 however that was. */
	readonly shown: Recall;
	readonly night: DayNumber;
	/** Nights since then; 0 for tonight. */
	readonly nightsAgo: number;
	readonly reviews: number;
	readonly lapses: number;
}

/** A skill and what is remembered of it: null where it was never tried. */
export interface MapEntry {
	readonly skill: Skill;
	readonly remembered: Remembered | null;
}

/** Entries of skills as a map has them. */
export interface LaidOut<Entry> {
	readonly families: readonly string[];
	/** A row for each area that any family has; under each family its entry, null where the family has no such skill. */
	readonly rows: readonly { readonly area: Area; readonly entries: readonly (Entry | null)[] }[];
	readonly drills: readonly Entry[];
}

export type SkillsMap = LaidOut<MapEntry>;

/** @param now [ms since 1970] */
export function skillsMap(skills: readonly Skill[], memories: readonly Memory[], now: number, scheduler: Scheduler): SkillsMap {
	const known = new Map(memories.map((memory) => [memory.skill, memory]));
	const entryOf = (skill: Skill): MapEntry => {
		const memory = known.get(skill.id);
		return { skill, remembered: memory ? rememberedOf(memory, now, scheduler) : null };
	};
	return layOut(skills, entryOf);
}

/** Families across in the order of their skills, areas down, and the kinds of drill. */
export function layOut<Entry>(skills: readonly Skill[], entryOf: (skill: Skill) => Entry): LaidOut<Entry> {
	const ofAreas = skills.filter((skill) => skill.kind === 'area');
	const families = [...new Set(ofAreas.map(({ family }) => family))];
	const present = (Object.keys(areas) as Area[]).filter((area) => ofAreas.some((skill) => skill.area === area));
	return {
		families,
		rows: present.map((area) => ({
			area,
			entries: families.map((family) => {
				const skill = ofAreas.find((one) => one.family === family && one.area === area);
				return skill ? entryOf(skill) : null;
			})
		})),
		drills: skills.filter(({ kind }) => kind === 'drill').map(entryOf)
	};
}

function rememberedOf(memory: Memory, now: number, scheduler: Scheduler): Remembered {
	const inDays = (days: number) => recallAt(memory, now + days * dayMs, scheduler);
	const { due, last, shown, reviews, lapses } = memory;
	const night = dayOf(last, scheduler.zone);
	return {
		now: inDays(0),
		in7Days: inDays(7),
		in30Days: inDays(30),
		isDue: isDue(memory, now),
		due,
		last,
		shown,
		night,
		nightsAgo: dayOf(now, scheduler.zone) - night,
		reviews,
		lapses
	};
}
