/** How a skill was shown by a callout. */
import type { Rules } from '#shared/scenario/schema.ts';

/** How a skill was shown, the worst first. */
export const recalls = ['lost', 'laboured', 'sound', 'fluent'] as const;
export type Recall = (typeof recalls)[number];

/** What of a callout decides how its skill was shown. */
export interface Performance {
	/** A dangerous rule was breached. */
	readonly failed: boolean;
	readonly cured: boolean;
	/** Something was fitted or opened without evidence, whether or not it was the cure. */
	readonly guessed: boolean;
	/** Something was fitted or opened on what was likely, with nothing read that showed it. */
	readonly unproved: boolean;
	/** Regret as a share of the sound path's cost, >= 0. */
	readonly regretShare: number;
}

/**
 * How a callout showed its skill. Lost: not cured, a dangerous breach, or a part fitted without evidence. Laboured: cured, but at a regret
 * above a set share of the sound path's cost, or by something fitted before it was shown. Fluent: next to no regret. Our own rule; no published one maps a path of many steps to a
 * recall.
 */
export function recallOf({ failed, cured, guessed, unproved, regretShare }: Performance, cuts: Rules['weighing']['recall']): Recall {
	if (failed || !cured || guessed) return 'lost';
	return unproved || regretShare > cuts.laboured ? 'laboured' : regretShare > cuts.fluent ? 'sound' : 'fluent';
}
