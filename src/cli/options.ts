/** The options of the command line: what each expects, and how it is read. Verbs name those that they take. */
import { demands, type Demand } from '#shared/appliance/model.ts';
import { mostSeed } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';

export type Packs = ReadonlyMap<string, Pack>;

/** What is known while an option is read: all packs, and that of `--family` once it has been read. */
export interface Known {
	readonly packs: Packs;
	readonly pack: Pack | undefined;
}

export interface Option<T> {
	/** What stands for the value in the help. */
	readonly value: string;
	readonly required: boolean;
	/** May be given several times; then it is read as a list. */
	readonly repeated?: true;
	expected(known: Known): string;
	/** @returns undefined where the text is not what was expected */
	read(text: string, known: Known): T | undefined;
}

const oneOf = (ids: Iterable<string>): string => `one of ${[...ids].join(', ')}`;

export const family: Option<Pack> = {
	value: 'ID',
	required: true,
	expected: ({ packs }) => oneOf(packs.keys()),
	read: (text, { packs }) => packs.get(text)
};

const faultIds = ({ pack }: Known): string[] => ['none', ...(pack?.faults ?? []).map(({ id }) => id)];

/** A fault of the family, or `none`. */
export const fault: Option<string> = {
	value: 'ID',
	required: false,
	expected: (known) => oneOf(faultIds(known)),
	read: (text, known) => faultIds(known).find((id) => id === text)
};

export const severity: Option<number> = {
	value: '0..1',
	required: false,
	expected: () => 'a number from 0 (healthy) to 1',
	read: (text) => numberWithin(text, 0, 1)
};

export const seed: Option<number> = {
	value: 'N',
	required: true,
	expected: () => `a whole number from 0 to ${mostSeed}`,
	read: (text) => (/^\d+$/.test(text) ? numberWithin(text, 0, mostSeed) : undefined)
};

export const demand: Option<Demand> = {
	value: 'DEMAND',
	required: true,
	expected: ({ pack }) => oneOf(pack?.family.demands.map(({ id }) => id) ?? demands),
	read: (text, { pack }) => pack?.family.demands.find(({ id }) => id === text)?.id
};

/** A day; beyond that a run tells nothing new. */
const mostSeconds = 86_400;

export const seconds: Option<number> = {
	value: 'S',
	required: true,
	expected: () => `seconds, above 0 and up to ${mostSeconds}`,
	read: (text) => (Number(text) > 0 ? numberWithin(text, 0, mostSeconds) : undefined)
};

export const step: Option<number> = {
	value: 'S',
	required: false,
	expected: () => 'seconds from 0.05 to 60',
	read: (text) => numberWithin(text, 0.05, 60)
};

export const file: Option<string> = {
	value: 'PATH',
	required: true,
	expected: () => 'the path of a JSON file { family, seed, fault?, actions }',
	read: (text) => (text === '' ? undefined : text)
};

/** Of the audit trail, as it was printed before. */
export const head: Option<string> = {
	value: 'HASH',
	required: false,
	expected: () => 'the head that was printed, 64 hexadecimal digits',
	read: (text) => (/^[0-9a-f]{64}$/.test(text) ? text : undefined)
};

export const assignment: Option<{ readonly key: string; readonly value: string }> = {
	value: 'KEY=VALUE',
	required: false,
	repeated: true,
	expected: () => 'KEY=VALUE',
	read(text) {
		const match = /^([^=]+)=(.+)$/.exec(text);
		return match ? { key: match[1]!, value: match[2]! } : undefined;
	}
};

/** A plain decimal number within bounds, both included; no blanks, no hexadecimal, no word for infinity. */
export function numberWithin(text: string, from: number, to: number): number | undefined {
	if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text)) return undefined;
	const value = Number(text);
	return value >= from && value <= to ? value : undefined;
}
