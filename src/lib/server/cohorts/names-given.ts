/** Names for a register as an assessor gives them: one a line, or as comma-separated text with or without headings. Nothing is stored here. */
import papaparse from 'papaparse';
import { z } from 'zod';
import { isLegible } from '../accounts/names.ts';
import { writtenName } from './written-name.ts';

/** A register longer than any class: beyond it a mistaken file is likelier than a cohort. */
export const mostNames = 200;
export const mostBytes = 100_000;
export const mostExtraPercent = 200;

/** One name, and what is wrong with it. */
export interface NameGiven {
	readonly name: string;
	readonly reference: string | null;
	readonly extraPercent: number;
	/** In a sentence; null where it can be taken. */
	readonly problem: string | null;
}

export interface NamesGiven {
	readonly lines: readonly NameGiven[];
	/** What is wrong with all of it; null where each line stands for itself. */
	readonly says: string | null;
	/** Headings that were found and are not used. */
	readonly unused: readonly string[];
	/** Whether all of it can be taken. */
	readonly isSound: boolean;
}

type Column = 'name' | 'first' | 'last' | 'reference' | 'extra';

const headings: readonly (readonly [Column, RegExp])[] = [
	['first', /^(first|given|fore) ?names?$/],
	['last', /^(last|family) ?name$|^surname$/],
	['name', /^(full )?name$|^(learner|student|apprentice|trainee)( name)?$/],
	['extra', /^extra( time)?( percent)?$/],
	['reference', /^(ref(erence)?|id|number|no)$|^(learner|student|college|centre|apprentice) (ref(erence)?|id|number|no)$/]
];

const columnOf = (heading: string): Column | null => {
	const plain = heading
		.toLowerCase()
		.replace('%', ' percent')
		.replace(/[^a-z0-9]+/g, ' ')
		.trim();
	return headings.find(([, named]) => named.test(plain))?.[0] ?? null;
};

/**
 * @param text   at most `mostBytes` long
 * @param taken  who is on the register already
 */
export function readNames(text: string, taken: readonly { readonly name: string; readonly reference: string | null }[]): NamesGiven {
	const { data: rows, errors } = papaparse.parse<string[]>(text.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n'), {
		skipEmptyLines: 'greedy',
		newline: '\n',
		delimitersToGuess: [',', ';', '\t']
	});
	const quotes = errors.find(({ type }) => type === 'Quotes');
	if (quotes) return none(`A quotation mark is opened and not closed, in line ${(quotes.row ?? 0) + 1} or below it.`);
	const columns = (rows[0] ?? []).map(columnOf);
	const hasHeadings = columns.some((column) => column === 'name' || column === 'first' || column === 'last');
	const body = hasHeadings ? rows.slice(1) : rows;
	if (!hasHeadings && rows[0] && columns.every((column) => column !== null))
		return none('The first line has headings, and none is of a name.');
	if (body.length === 0) return none('There is no name in it.');
	if (body.length > mostNames) return none(`There are ${body.length} lines in it. A register has at most ${mostNames} names.`);
	if (!hasHeadings && body.some((row) => row.length > 3))
		return none('There are more than three columns and no headings. Give each column one: name, reference, extra time.');
	const isSplit = !hasHeadings && body.every(([, second = '']) => second.trim() !== '' && !/\d/.test(second));
	if (isSplit)
		return none(
			'The second column reads like the rest of a name, not like a reference. Write each name without a comma, or in quotation marks, or give the columns headings.'
		);
	const named = hasHeadings ? columns : (['name', 'reference', 'extra'] as const);
	const lines = withTwins(
		body.map((row) => lineOf(row, named)),
		taken
	);
	const unused = hasHeadings ? rows[0].filter((heading, at) => columns[at] === null && heading.trim() !== '') : [];
	return { lines, says: null, unused, isSound: lines.every(({ problem }) => problem === null) };
}

const none = (says: string): NamesGiven => ({ lines: [], says, unused: [], isSound: false });

const nameField = writtenName('There is no name.', 60);
const referenceField = z
	.string()
	.trim()
	.max(40, 'A reference has at most 40 characters.')
	.refine((text) => isLegible(text) && !/^[=+@-]/.test(text), 'This reference holds what a register cannot take.')
	.transform((text) => text || null);
/** `25`, `25%`, or nothing. */
export const extraField = z
	.string()
	.transform((text) => text.replace('%', '').trim() || '0')
	.refine(
		(text) => /^\d{1,3}$/.test(text) && Number(text) <= mostExtraPercent,
		`Extra time is a whole number of percent, from 0 to ${mostExtraPercent}.`
	)
	.transform(Number);

function lineOf(row: readonly string[], columns: readonly (Column | null)[]): NameGiven {
	const of = (column: Column) => row[columns.indexOf(column)] ?? '';
	const name = nameField.safeParse(columns.includes('name') ? of('name') : `${of('first')} ${of('last')}`);
	const [reference, extra] = [referenceField.safeParse(of('reference')), extraField.safeParse(of('extra'))];
	const failed = [name, reference, extra].find(({ success }) => !success);
	return {
		// As it was written, cut to what a page can show, where it cannot be taken.
		name: name.data ?? (of('name') || `${of('first')} ${of('last')}`).slice(0, 80),
		reference: reference.success ? reference.data : of('reference').slice(0, 60),
		extraPercent: extra.data ?? 0,
		problem: failed?.error?.issues[0]?.message ?? null
	};
}

/** Two people may have one name; then only their references tell them apart. A reference is one person's. */
function withTwins(
	lines: readonly NameGiven[],
	taken: readonly { readonly name: string; readonly reference: string | null }[]
): NameGiven[] {
	const key = (name: string) => name.toLowerCase();
	return lines.map((line, at) => {
		if (line.problem !== null) return line;
		const others = [...taken, ...lines.filter((_, other) => other !== at)];
		if (line.reference !== null && others.some(({ reference }) => reference === line.reference))
			return { ...line, problem: 'This reference is another’s too.' };
		const isTwin = others.some(({ name, reference }) => key(name) === key(line.name) && (reference === null || line.reference === null));
		return isTwin ? { ...line, problem: 'This name is there already. Where they are two people, give both a reference.' } : line;
	});
}

/** The text of a file, as spreadsheets save it: UTF-8, UTF-16, or the old Western one; null where it is no text. */
export function textIn(bytes: Uint8Array): string | null {
	const isUtf16 = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
	if (isUtf16) return new TextDecoder(bytes[0] === 0xff ? 'utf-16le' : 'utf-16be').decode(bytes);
	if (bytes.includes(0)) return null;
	try {
		return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
	} catch {
		return new TextDecoder('windows-1252').decode(bytes);
	}
}
