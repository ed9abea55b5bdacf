/** Tonight's round: what is to be practised in the minutes that a learner has. */
import type { SkillId } from '../skill.ts';

export const roundMinutes = [10, 20, 30] as const;

/** One thing to be played. */
export type RoundItem = {
	readonly skill: SkillId;
	/** Due for return, new, brought forward because nothing else is waiting, or chosen by a refresher because families differ there. */
	readonly why: 'due' | 'new' | 'early' | 'differs';
	/** What it is thought to take [min]. */
	readonly minutes: number;
	readonly seed: number;
} & (
	| { readonly kind: 'callout'; readonly family: string; /** The hidden fault, of the skill's area. */ readonly fault: string }
	| { readonly kind: 'drill'; readonly generator: string; readonly family: string | null }
);

export interface Round {
	readonly items: readonly RoundItem[];
	/** Skills that are due and were left for the nights to come. */
	readonly left: number;
}
