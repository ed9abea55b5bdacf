/** One data file, parsed and held against its shape; it still knows on which line each of its keys stands. */
import { isCollection, isMap, isNode, isPair, LineCounter, parseDocument, type Document } from 'yaml';
import type { z } from 'zod';
import type { Problem } from './pack.ts';

export type Key = PropertyKey;

export interface Text {
	/** The file's path inside `scenarios/`, with forward slashes. */
	readonly name: string;
	readonly text: string;
}

export interface Sheet<T> {
	readonly file: string;
	readonly value: T;
	/** Line of a key, from 1; of its nearest ancestor where the key itself is missing. */
	lineOf(path: readonly Key[]): number;
}

export type SheetOrProblems<T> = { readonly sheet: Sheet<T> } | { readonly problems: readonly Problem[] };

/**
 * Parses one YAML file and holds it against a schema.
 * @param expand puts what the file only names in its place, before it is held against the schema
 * @returns the sheet, or every problem found with file, line, key, what was expected and what came
 */
export function readSheet<T>(
	schema: z.ZodType<T>,
	{ name, text }: Text,
	expand: (raw: unknown) => unknown = (raw) => raw
): SheetOrProblems<T> {
	const lines = new LineCounter();
	const document = parseDocument(text, { lineCounter: lines, prettyErrors: false });
	if (document.errors.length > 0) {
		const problems = document.errors.map((error) => ({
			file: name,
			line: lines.linePos(error.pos[0]).line,
			key: '',
			says: `not readable as YAML: ${error.message}`
		}));
		return { problems };
	}
	const lineOf = (path: readonly Key[]): number => lineOfPath(document, lines, path);
	const raw = expand(document.toJS());
	const parsed = schema.safeParse(raw);
	if (parsed.success) return { sheet: { file: name, value: parsed.data, lineOf } };
	const problems = parsed.error.issues
		.flatMap((issue) => problemsOf(issue, raw))
		.map(({ path, says }) => ({ file: name, line: lineOf(path), key: keyOf(path), says }));
	return { problems };
}

/** `faults[3].severity` is written as `3.severity`: short, and the file's name says the rest. */
export function keyOf(path: readonly Key[]): string {
	return path.map(String).join('.');
}

interface Told {
	readonly path: readonly Key[];
	readonly says: string;
}

function problemsOf(issue: z.core.$ZodIssue, raw: unknown): Told[] {
	const came = shown(valueAt(raw, issue.path));
	switch (issue.code) {
		case 'unrecognized_keys':
			return issue.keys.map((key) => ({ path: [...issue.path, key], says: 'no such key is known here' }));
		case 'invalid_type':
			return [
				{ path: issue.path, says: came === 'nothing' ? `missing: expected ${issue.expected}` : `expected ${issue.expected}, came ${came}` }
			];
		case 'invalid_value':
			return [{ path: issue.path, says: `expected one of ${issue.values.map(String).join(', ')}; came ${came}` }];
		case 'invalid_union':
			return [{ path: issue.path, says: `expected ${unionOf(issue)}; came ${came}` }];
		case 'invalid_key':
			return [{ path: issue.path, says: `the key is not allowed: ${issue.issues.map((inner) => inner.message).join('; ')}` }];
		default:
			return [{ path: issue.path, says: `${issue.message}; came ${came}` }];
	}
}

/** The branches of a union, each by the key it lacks; only unions of one-key objects occur in the schema. */
function unionOf(issue: z.core.$ZodIssueInvalidUnion): string {
	const keys = issue.errors.flatMap((branch) =>
		branch.filter((inner) => inner.code === 'invalid_type' && inner.path.length > 0).map((inner) => keyOf(inner.path))
	);
	return keys.length > 0 ? `one of ${[...new Set(keys)].map((key) => `{ ${key}: number }`).join(', ')}` : 'another shape';
}

function valueAt(raw: unknown, path: readonly Key[]): unknown {
	return path.reduce<unknown>(
		(value, key) => (typeof value === 'object' && value !== null ? (value as Record<Key, unknown>)[key] : undefined),
		raw
	);
}

function shown(value: unknown): string {
	if (value === undefined) return 'nothing';
	const text = JSON.stringify(value) ?? String(value);
	return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

function lineOfPath(document: Document, lines: LineCounter, path: readonly Key[]): number {
	let node: unknown = document.contents;
	let start = isNode(node) ? (node.range?.[0] ?? 0) : 0;
	for (const key of path) {
		if (!isCollection(node)) break;
		const next: unknown = isMap(node)
			? node.items.find((pair) => isPair(pair) && keyText(pair.key) === String(key))
			: node.items[Number(key)];
		if (next === undefined) break;
		const named: unknown = isPair(next) ? next.key : next;
		if (isNode(named) && named.range) start = named.range[0];
		node = isPair(next) ? next.value : next;
	}
	return lines.linePos(start).line;
}

function keyText(key: unknown): string {
	return isNode(key) && 'value' in key ? String(key.value) : String(key);
}
