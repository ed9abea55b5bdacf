/** What the log makes of one skill of one learner. */
import type { Recall } from '#shared/marking/recall.ts';
import type { SkillId } from '../skill.ts';

/** Of a learner who has chosen nothing: a judgement of ours, between what is forgotten and what it costs to keep. */
export const defaultRetention = 0.85;
/** What a learner has whose browser has not told. */
export const defaultZone = 'Europe/London';

export interface Memory {
	readonly skill: SkillId;
	/** Time after which recall has fallen to 0.9 [days]. */
	readonly stability: number;
	/** 1 (easy) to 10. */
	readonly difficulty: number;
	/** When it was shown last [ms since 1970]. */
	readonly last: number;
	/** How it was shown then. */
	readonly shown: Recall;
	/** Start of the learner's day on which recall falls to what is desired [ms since 1970]. */
	readonly due: number;
	readonly reviews: number;
	readonly lapses: number;
}

/** By what the log is read. */
export interface Scheduler {
	/** Name and version of the memory model, stored with every state. */
	readonly version: string;
	readonly parameters: readonly number[];
	/** Recall at which a skill is to come back, 0.7 to 0.97. */
	readonly retention: number;
	/** IANA time zone in which the learner's days turn, at 04:00. */
	readonly zone: string;
}
