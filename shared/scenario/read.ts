/**
 * Reads the texts of `scenarios/` into typed, line-aware sheets. Which shape a file has follows from its folder:
 * `families/`, `faults/`, `checks/`, `parts/` and `drawings/` hold one file a family; the rest is shared by all families. A family's checks
 * may name one of the checks that families share by its id alone.
 */
import { z } from 'zod';
import type { Problem } from './pack.ts';
import { check, complaint, drawing, fact, family, fault, household, instrument, part, remedy, rules, type Check } from './schema.ts';
import { readSheet, type Sheet, type Text } from './sheet.ts';

export const shapes = {
	family,
	faults: z.array(fault),
	checks: z.array(check),
	parts: z.strictObject({ parts: z.array(part), remedies: z.array(remedy) }),
	drawing,
	instruments: z.array(instrument),
	homes: z.strictObject({ households: z.array(household).min(1), facts: z.array(fact) }),
	complaints: z.array(complaint),
	rules
} as const;
export type Shapes = { readonly [Kind in keyof typeof shapes]: z.infer<(typeof shapes)[Kind]> };

/** Everything that one family's pack is made from. */
export type Sources = { readonly [Kind in keyof Shapes]: Sheet<Shapes[Kind]> };

const ownFolders = { family: 'families', faults: 'faults', checks: 'checks', parts: 'parts', drawing: 'drawings' } as const;
/** Checks that families share; a family need not take any. */
const commonChecksFile = 'checks/common.yaml';
const commonFiles = {
	instruments: 'checks/instruments.yaml',
	homes: 'households/homes.yaml',
	complaints: 'households/complaints.yaml',
	rules: 'rules/uk.yaml'
} as const;

export interface ScenariosRead {
	/** Sources by family id; only families whose every file could be read. */
	readonly families: ReadonlyMap<string, Sources>;
	readonly problems: readonly Problem[];
}

/**
 * @param texts every YAML file of `scenarios/`; those in folders that packs do not use are left alone
 * @returns the sources of each family, and the problems of all files
 */
export function readScenarios(texts: readonly Text[]): ScenariosRead {
	const byName = new Map(texts.map((text) => [text.name, text]));
	const problems: Problem[] = [];
	const read = <Kind extends keyof Shapes>(kind: Kind, name: string): Sheet<Shapes[Kind]> | null => {
		const text = byName.get(name);
		if (!text) {
			problems.push({ file: name, line: 1, key: '', says: 'this file is expected and is missing' });
			return null;
		}
		const result = readSheet(shapes[kind] as unknown as z.ZodType<Shapes[Kind]>, text, kind === 'checks' ? withCommon : undefined);
		if ('sheet' in result) return result.sheet;
		problems.push(...result.problems);
		return null;
	};

	const commonChecks = new Map<string, Check>();
	const withCommon = (raw: unknown) =>
		Array.isArray(raw) ? raw.map((entry: unknown) => (typeof entry === 'string' && commonChecks.get(entry)) || entry) : raw;
	if (byName.has(commonChecksFile)) for (const one of read('checks', commonChecksFile)?.value ?? []) commonChecks.set(one.id, one);

	const common = each(commonFiles, read);
	const families = new Map<string, Sources>();
	for (const name of familyNames(texts)) {
		const own = each(
			mapValues(ownFolders, (folder) => `${folder}/${name}.yaml`),
			read
		);
		const sources = { ...common, ...own };
		if (Object.values(sources).every((sheet) => sheet !== null)) families.set(name, sources as Sources);
	}
	return { families, problems };
}

function familyNames(texts: readonly Text[]): string[] {
	return texts.flatMap(({ name }) => /^families\/([^/]+)\.yaml$/.exec(name)?.[1] ?? []).sort();
}

type Partly<Kinds extends keyof Shapes> = { [Kind in Kinds]: Sheet<Shapes[Kind]> | null };

function each<Kinds extends keyof Shapes>(
	files: Readonly<Record<Kinds, string>>,
	read: <Kind extends Kinds>(kind: Kind, name: string) => Sheet<Shapes[Kind]> | null
): Partly<Kinds> {
	const kinds = Object.keys(files) as Kinds[];
	return Object.fromEntries(kinds.map((kind) => [kind, read(kind, files[kind])])) as Partly<Kinds>;
}

function mapValues<K extends string>(record: Readonly<Record<K, string>>, change: (value: string) => string): Record<K, string> {
	return Object.fromEntries(Object.entries<string>(record).map(([key, value]) => [key, change(value)])) as Record<K, string>;
}
