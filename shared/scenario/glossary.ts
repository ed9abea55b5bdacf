/** Trade terms with plain meanings. They explain what is on a screen and change nothing in a callout, so no pack's hash covers them. */
import { z } from 'zod';
import type { Problem } from './pack.ts';
import { readSheet, type Text } from './sheet.ts';

/** Where the glossary lies in `scenarios/`. */
export const glossaryFile = 'glossary/terms.yaml';

export const term = z.strictObject({
	id: z.string().regex(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/, 'an id: lower-case words joined by hyphens'),
	/** As a heading, written as within a sentence. */
	term: z.string().min(2),
	/** Other words that mean the same and are marked as it is: plurals, short forms. */
	also: z.array(z.string().min(2)).default([]),
	says: z.string().min(20)
});
export type Term = z.infer<typeof term>;

export interface GlossaryRead {
	readonly terms: readonly Term[];
	readonly problems: readonly Problem[];
}

/** @returns the terms in the order of the alphabet, and every problem with its file, line and key; a word must lead to one term only */
export function readGlossary(text: Text): GlossaryRead {
	const read = readSheet(z.array(term), text);
	if ('problems' in read) return { terms: [], problems: read.problems };
	const { sheet } = read;
	const problems: Problem[] = [];
	const ids = new Set<string>();
	const words = new Map<string, string>();
	for (const [index, one] of sheet.value.entries()) {
		const report = (key: string, says: string) =>
			problems.push({ file: sheet.file, line: sheet.lineOf([index, key]), key: `${index}.${key}`, says });
		if (ids.has(one.id)) report('id', `"${one.id}" is there already`);
		ids.add(one.id);
		for (const word of [one.term, ...one.also].map((said) => said.toLowerCase())) {
			const other = words.get(word);
			if (other !== undefined) report('term', `"${word}" already leads to "${other}"`);
			words.set(word, one.id);
		}
	}
	const order = (a: Term, b: Term) => (a.term.toLowerCase() < b.term.toLowerCase() ? -1 : 1);
	return { terms: sheet.value.toSorted(order), problems };
}
