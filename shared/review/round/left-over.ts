import type { Memory } from '../memory/memory.ts';
import { isDue } from '../memory/schedule.ts';
import type { SkillId } from '../skill.ts';

/**
 * How many skills are due and are left for the nights to come.
 * @param memories of skills that can be practised
 * @param planned  skills that tonight's round holds, or still holds
 * @param now      [ms since 1970]
 */
export function leftOver(memories: Iterable<Memory>, planned: ReadonlySet<SkillId>, now: number): number {
	return [...memories].filter((memory) => isDue(memory, now) && !planned.has(memory.skill)).length;
}
