/** How often each skill was shown, and how, by callouts and drills of its own. */
import { recalls, type Recall } from '#shared/marking/recall.ts';
import { groupBy } from '#shared/quantity/group-by.ts';
import type { SkillId } from '../skill.ts';

export interface Tally {
	readonly skill: SkillId;
	/** Callouts, or drills. */
	readonly count: number;
	readonly shown: Readonly<Record<Recall, number>>;
}

/** @param shown  one line a callout or drill: the skill that it was about. @returns by skill, in the order in which they were met */
export function tallyOf(shown: readonly { readonly skill: SkillId; readonly recall: Recall }[]): Tally[] {
	return [...groupBy(shown, ({ skill }) => skill)].map(([skill, lines]) => {
		const times = recalls.map((recall) => [recall, lines.filter((line) => line.recall === recall).length] as const);
		return { skill, count: lines.length, shown: Object.fromEntries(times) as Record<Recall, number> };
	});
}
