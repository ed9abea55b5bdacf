/** The shape of a verb, and how its options are read from what was typed. */
import { parseArgs } from 'node:util';
import type { Pack } from '#shared/scenario/pack.ts';
import { BadInput } from './bad-input.ts';
import type { Option, Packs } from './options.ts';

export type Options = Readonly<Record<string, Option<unknown>>>;

/** Options as read, by name. */
export interface Given {
	/** @throws Error if the verb takes no such option or it was not required and not given: a slip in the verb, not of the user */
	must<T>(option: Option<T>): T;
	may<T>(option: Option<T>): T | undefined;
	all<T>(option: Option<T>): readonly T[];
}

export interface Verb {
	readonly name: string;
	readonly says: string;
	readonly options: Options;
	/** What `--json` prints. */
	run(given: Given, packs: Packs): unknown;
	/** The same for reading at a terminal. */
	show(result: never): string;
	/** Exit code; 0 where left out. */
	code?(result: never): number;
}

/**
 * Reads the options of a verb.
 * @throws BadInput naming the first argument that cannot be used
 */
export function readOptions(verb: Verb, typed: readonly string[], packs: Packs): { readonly given: Given; readonly json: boolean } {
	const names = Object.keys(verb.options);
	const { values, tokens } = parseArgs({
		args: [...typed],
		options: { ...Object.fromEntries(names.map((name) => [name, { type: 'string' as const, multiple: true }])), json: { type: 'boolean' } },
		strict: false,
		tokens: true
	});
	for (const token of tokens) {
		if (token.kind === 'positional') throw new BadInput(verb.name, 'options only', token.value);
		if (token.kind === 'option' && token.name !== 'json' && !names.includes(token.name)) {
			throw new BadInput(verb.name, `options ${[...names, 'json'].map((name) => `--${name}`).join(', ')}`, token.rawName);
		}
		if (token.kind === 'option' && token.name === 'json' && token.value !== undefined)
			throw new BadInput('--json', 'no value', token.value);
	}

	const read = new Map<Option<unknown>, readonly unknown[]>();
	let pack: Pack | undefined;
	for (const [name, option] of Object.entries(verb.options)) {
		const texts = (values[name] ?? []) as readonly (string | boolean)[];
		const known = { packs, pack };
		if (texts.length === 0 && option.required) throw new BadInput(`--${name}`, option.expected(known));
		if (texts.length > 1 && !option.repeated) throw new BadInput(`--${name}`, 'to be given once', texts.map(String).join(' '));
		const all = texts.map((text) => {
			if (typeof text !== 'string') throw new BadInput(`--${name}`, option.expected(known));
			const value = option.read(text, known);
			if (value === undefined) throw new BadInput(`--${name}`, option.expected(known), text);
			return value;
		});
		read.set(option, all);
		if (name === 'family') pack = all[0] as Pack;
	}
	return { given: givenFrom(read), json: values['json'] === true };
}

function givenFrom(read: ReadonlyMap<Option<unknown>, readonly unknown[]>): Given {
	const all = <T>(option: Option<T>): readonly T[] => (read.get(option as Option<unknown>) ?? []) as readonly T[];
	return {
		all,
		may: (option) => all(option)[0],
		must(option) {
			const [value] = all(option);
			if (value === undefined) throw new Error('a verb asked for an option that it does not require');
			return value;
		}
	};
}
