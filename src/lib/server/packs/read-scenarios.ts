/** Reads `scenarios/` from disk and makes its packs. Knows nothing of the server, so that the command line can use it too. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { models } from '#shared/appliance/families/index.ts';
import { skillsOf } from '#shared/review/skills.ts';
import { curriculumFile, readCurriculum, type CurriculumRead } from '#shared/scenario/curriculum.ts';
import { glossaryFile, readGlossary, type GlossaryRead } from '#shared/scenario/glossary.ts';
import { makePacks } from '#shared/scenario/make-pack.ts';
import type { Pack, Problem } from '#shared/scenario/pack.ts';
import type { Text } from '#shared/scenario/sheet.ts';

/** The data in `scenarios/` does not hold together. The message lists every problem with file, line and key. */
export class ScenarioProblems extends Error {
	readonly problems: readonly Problem[];

	constructor(folder: string, problems: readonly Problem[]) {
		super(`${folder}: ${problems.length} ${problems.length === 1 ? 'problem' : 'problems'}\n${problems.map(problemLine).join('\n')}`);
		this.name = 'ScenarioProblems';
		this.problems = problems;
	}
}

/** There is no folder of scenarios. */
export class NoScenarios extends Error {
	override readonly name = 'NoScenarios';

	constructor(folder: string) {
		super(`There is no folder ${folder} to read scenarios from; PROVEWELL_SCENARIOS says where it is.`);
	}
}

/** `faults/x.yaml:12 3.severity: from must not be above to` */
export function problemLine({ file, line, key, says }: Problem): string {
	return `${file}:${line}${key ? ` ${key}` : ''}: ${says}`;
}

/** Where the data lies: `PROVEWELL_SCENARIOS`, or `scenarios/` of the folder that the process was started in. */
export function scenariosFolder(): string {
	return resolve(process.env['PROVEWELL_SCENARIOS'] || 'scenarios');
}

/**
 * @returns the packs by family id
 * @throws NoScenarios, ScenarioProblems
 */
export function readPacks(folder = scenariosFolder()): ReadonlyMap<string, Pack> {
	if (!existsSync(folder)) throw new NoScenarios(folder);
	const texts = textsIn(folder);
	const { packs, problems: unfit } = makePacks(texts, models);
	const problems = [...unfit, ...glossaryIn(texts).problems, ...curriculumProblems(texts, packs)];
	if (problems.length > 0) throw new ScenarioProblems(folder, problems);
	if (packs.size === 0) throw new ScenarioProblems(folder, [{ file: 'families/', line: 1, key: '', says: 'no family found' }]);
	return packs;
}

/** The glossary among the texts of `scenarios/`; empty where there is none. */
export function glossaryIn(texts: readonly Text[]): GlossaryRead {
	const text = texts.find(({ name }) => name === glossaryFile);
	return text ? readGlossary(text) : { terms: [], problems: [] };
}

/** The curriculum among the texts of `scenarios/`; null where there is none. */
export function curriculumIn(texts: readonly Text[]): CurriculumRead {
	const text = texts.find(({ name }) => name === curriculumFile);
	return text ? readCurriculum(text) : { curriculum: null, problems: [] };
}

/** What is wrong in the curriculum itself, and what it says of families and areas that no pack has. */
function curriculumProblems(texts: readonly Text[], packs: ReadonlyMap<string, Pack>): Problem[] {
	const { curriculum, problems } = curriculumIn(texts);
	if (!curriculum) return [...problems];
	return skillsOf(curriculum, packs.values()).problems.map(({ skill, says }) => ({
		file: curriculumFile,
		line: 1,
		key: `families ${skill}`,
		says
	}));
}

/** Every YAML file under the folder, named by its path in it. A folder that cannot be read holds none. */
export function textsIn(folder: string): Text[] {
	let names: string[];
	try {
		names = readdirSync(folder, { recursive: true, encoding: 'utf8' });
	} catch {
		return [];
	}
	return names
		.filter((name) => name.endsWith('.yaml'))
		.sort()
		.map((name) => ({ name: name.replaceAll('\\', '/'), text: readFileSync(join(folder, name), 'utf8') }));
}
