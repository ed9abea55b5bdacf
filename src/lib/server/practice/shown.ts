/** How skills were shown, in the words of a page. */
import type { Recall } from '#shared/marking/recall.ts';
import type { Memory } from '#shared/review/memory/memory.ts';
import type { Skill, SkillId } from '#shared/review/skill.ts';
import { nightWords } from './nights.ts';

export interface Shown {
	/** The skill's name. */
	readonly skill: string;
	readonly recall: Recall;
	/** The night on which it comes back: `tomorrow night`. */
	readonly back: string;
}

/** By what lines of the log are told. */
export interface Telling {
	readonly skills: ReadonlyMap<SkillId, Skill>;
	readonly memories: ReadonlyMap<SkillId, Memory>;
	readonly zone: string;
	readonly now: number;
}

/** Lines of the log as a page says them. A skill that is no longer taught is left out. */
export function shownOf(reviews: readonly { readonly skill: SkillId; readonly recall: Recall }[], telling: Telling): Shown[] {
	return reviews.flatMap(({ skill, recall }) => {
		const [known, memory] = [telling.skills.get(skill), telling.memories.get(skill)];
		return known && memory ? [{ skill: known.name, recall, back: nightWords(memory.due, telling.now, telling.zone) }] : [];
	});
}
