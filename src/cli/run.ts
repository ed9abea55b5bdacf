/** Runs one command line and returns its exit code. Everything outside comes in as arguments, so that tests need no process. */
import { DataFolderProblem } from '../lib/server/database/open.ts';
import { NoScenarios, ScenarioProblems } from '../lib/server/packs/read-scenarios.ts';
import { BadInput } from './bad-input.ts';
import type { Packs } from './options.ts';
import { readOptions, type Verb } from './verb.ts';
import { verbs } from './verbs/index.ts';

export interface Terminal {
	out(text: string): void;
	err(text: string): void;
}

/**
 * @param typed what follows the program's name
 * @param packs read only when a verb is run
 * @returns 0 done, 1 the data or the product is at fault, 2 what was typed is
 */
export async function run(typed: readonly string[], packs: () => Packs, { out, err }: Terminal): Promise<number> {
	const [name, ...rest] = typed;
	if (name === 'help' || name === '--help') {
		out(`${help()}\n`);
		return 0;
	}
	try {
		const verb = verbs.find((one) => one.name === name);
		if (!verb) throw new BadInput('verb', `one of ${verbs.map((one) => one.name).join(', ')}`, name);
		const known = packs();
		const { given, json } = readOptions(verb, rest, known);
		const result = (await verb.run(given, known)) as never;
		out(`${json ? JSON.stringify(result) : verb.show(result)}\n`);
		return verb.code?.(result) ?? 0;
	} catch (error) {
		if (error instanceof BadInput) {
			err(`${oneLine(error.message)}\n`);
			return 2;
		}
		if (error instanceof ScenarioProblems || error instanceof NoScenarios || error instanceof DataFolderProblem) {
			err(`${error.message}\n`);
			return 1;
		}
		throw error;
	}
}

function help(): string {
	return ['npm run -s cli -- VERB [options] [--json]', '', ...verbs.map(usage)].join('\n');
}

function usage({ name, says, options }: Verb): string {
	const typed = Object.entries(options).map(([option, { value, required, repeated }]) => {
		const text = `--${option} ${value}`;
		return required ? text : `[${text}]${repeated ? '...' : ''}`;
	});
	return `  ${[name, ...typed].join(' ')}\n      ${says}`;
}

function oneLine(text: string): string {
	return text.replaceAll(/\s*\n\s*/g, ' ');
}
