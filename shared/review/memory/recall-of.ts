/**
 * What a callout or a drill shows of skills: the lines that it adds to the log.
 *
 * The rule is our own; no published one was found that maps a performance of many steps to the grades of a memory model. A callout's main
 * skill is shown as its mark sheet says, but never better than laboured where help was taken. Every other area whose evidence was misread
 * on the way is shown lost, once its skill has been begun: nobody forgets what they never practised. All of it rests on regret and on what
 * was judged at the belief of the time, so luck has no part in it.
 */
import type { MarkSheet } from '#shared/marking/mark-sheet.ts';
import { recalls, type Recall } from '#shared/marking/recall.ts';
import type { Area } from '#shared/scenario/areas.ts';
import type { Judged } from '../drills/drill.ts';
import type { Review, SkillId } from '../skill.ts';
import { areaSkillId, drillSkillId } from '../skills.ts';

/** Of a debrief: how the callout was marked and what was hidden in it. */
export interface Debriefed {
	readonly sheet: Pick<MarkSheet, 'recall' | 'misread'>;
	readonly fault: { readonly area: Area };
}

/** What the callout was to the learner. */
export interface Sat {
	readonly family: string;
	/** When it ended [ms since 1970]. */
	readonly at: number;
	/** What it took by the learner's own clock [min]. */
	readonly minutes: number;
	/** Whether the learner was helped in any way that tells. */
	readonly helped: boolean;
	/** Skills that the learner had begun before. */
	readonly begun: ReadonlySet<SkillId>;
}

/** @returns the main skill first; the others take no minutes of their own, since the main one has them all */
export function reviewsOf({ sheet, fault }: Debriefed, { family, at, minutes, helped, begun }: Sat): Review[] {
	const main = areaSkillId(family, fault.area);
	const others = [...new Set(sheet.misread)].map((misread) => areaSkillId(family, misread));
	return [
		{ skill: main, at, recall: helped ? noBetter(sheet.recall, 'laboured') : sheet.recall, minutes },
		...others.filter((skill) => skill !== main && begun.has(skill)).map((skill) => ({ skill, at, recall: 'lost' as const, minutes: 0 }))
	];
}

/** @param drill its kind */
export function drillReview({ recall }: Pick<Judged, 'recall'>, drill: string, at: number, minutes: number): Review {
	return { skill: drillSkillId(drill), at, recall, minutes };
}

function noBetter(recall: Recall, best: Recall): Recall {
	return recalls[Math.min(recalls.indexOf(recall), recalls.indexOf(best))];
}
