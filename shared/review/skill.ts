/**
 * What review is scheduled for: an appliance family crossed with a fault area, or a kind of drill. A skill has an id that is never reused:
 * `combi-plate-primary/heat-transfer`, `drill/gas-sums`.
 */
import type { Recall } from '#shared/marking/recall.ts';
import type { Area } from '#shared/scenario/areas.ts';

export type SkillId = string;

interface Known {
	readonly id: SkillId;
	readonly name: string;
	/** Skills of the same family, or kinds of drill, that are to be begun before this one. */
	readonly after: readonly SkillId[];
	/** What practising it once takes by the learner's own clock, before anything is known of the learner [min]. */
	readonly minutes: number;
}

/** Shown by a callout whose hidden fault lies in the area. */
export interface AreaSkill extends Known {
	readonly kind: 'area';
	readonly family: string;
	readonly area: Area;
}

/** Shown by drills of one kind. */
export interface DrillSkill extends Known {
	readonly kind: 'drill';
	readonly drill: string;
}

export type Skill = AreaSkill | DrillSkill;

/** One line of the log from which all that is known of a learner's memory follows. */
export interface Review {
	readonly skill: SkillId;
	/** Milliseconds since 1970. */
	readonly at: number;
	readonly recall: Recall;
	/** What it took by the learner's own clock [min]. */
	readonly minutes: number;
}
