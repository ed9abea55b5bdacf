/** The glossary of a page, and the stretch of it within which each term is marked once. */
import { getContext, hasContext, setContext } from 'svelte';
import type { Term } from '#shared/scenario/glossary.ts';
import { markTerms, type Stretch } from './mark-terms';

const termsKey = Symbol('terms');
const marksKey = Symbol('marks');
type Marks = (says: string) => readonly Stretch[];

/** Gives the page's terms to all that stands on it. */
export function setTerms(terms: () => readonly Term[]): void {
	setContext(termsKey, terms);
}

/** @returns none on a page without a glossary */
export function getTerms(): () => readonly Term[] {
	return hasContext(termsKey) ? getContext<() => readonly Term[]>(termsKey) : () => [];
}

/**
 * Within the calling component each term is marked once, in the first of these sentences that has it, so that a reader who goes by
 * keyboard does not stop at it again and again.
 * @param marked  sentence by sentence, as `marksOf` made them
 */
export function setMarks(marked: () => ReadonlyMap<string, readonly Stretch[]>): void {
	setContext<Marks>(marksKey, (says) => marked().get(says) ?? [{ says, term: null }]);
}

/** The stretches of each sentence, each term marked once over all of them. */
export function marksOf(sentences: readonly string[], terms: readonly Term[]): ReadonlyMap<string, readonly Stretch[]> {
	const each = [...new Set(sentences)];
	const marked = markTerms(each, terms);
	return new Map(each.map((says, i) => [says, marked[i]]));
}

/** How a sentence is marked where the calling component stands. */
export function getMarks(): Marks {
	if (hasContext(marksKey)) return getContext<Marks>(marksKey);
	const terms = getTerms();
	return (says) => markTerms([says], terms())[0];
}
