/** The curriculum of this server, read from disk once, and the skills that it and the packs in stock make. */
import { skillsOf } from '#shared/review/skills.ts';
import type { Skill } from '#shared/review/skill.ts';
import { curriculumFile, type Curriculum } from '#shared/scenario/curriculum.ts';
import { packs } from './packs.ts';
import { curriculumIn, scenariosFolder, ScenarioProblems, textsIn } from './read-scenarios.ts';

let read: Curriculum | undefined;

/** @throws ScenarioProblems where there is none, or what is wrong in it */
export function curriculum(): Curriculum {
	if (read) return read;
	const folder = scenariosFolder();
	const { curriculum: found, problems } = curriculumIn(textsIn(folder));
	if (!found) {
		const missing = { file: curriculumFile, line: 1, key: '', says: 'this file is expected and is missing' };
		throw new ScenarioProblems(folder, problems.length > 0 ? problems : [missing]);
	}
	read = found;
	return read;
}

/** Every skill that can be practised here, areas by family and then drills. */
export function skills(): readonly Skill[] {
	return skillsOf(curriculum(), packs().values()).skills;
}
