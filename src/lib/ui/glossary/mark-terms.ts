/** Finds trade terms in sentences, so that each can be marked where it first stands. */
import type { Term } from '#shared/scenario/glossary.ts';

/** A stretch of a sentence; with a term, the words that stand for it. */
export interface Stretch {
	readonly says: string;
	readonly term: Term | null;
}

const escaped = (word: string) => word.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
/** Written in capitals only, such as CO: elsewhere these letters are another word. */
const isSign = (word: string) => word.length <= 3 && word === word.toUpperCase();

/** One pattern for all words, the longest first, so that `diverter motor` is not read as `diverter`. Kept for the list it was made of. */
const patterns = new WeakMap<readonly Term[], { pattern: RegExp; termOf: ReadonlyMap<string, Term> }>();

function patternOf(terms: readonly Term[]) {
	let made = patterns.get(terms);
	if (!made) {
		const termOf = new Map(terms.flatMap((one) => [one.term, ...one.also].map((word) => [word.toLowerCase(), one] as const)));
		const words = terms.flatMap((one) => [one.term, ...one.also]).toSorted((a, b) => b.length - a.length);
		const written = (word: string) => (isSign(word) ? escaped(word) : `${looseCase(word)}s?`);
		made = { pattern: new RegExp(`(?<![\\w-])(?:${words.map(written).join('|')})(?![\\w-])`, 'g'), termOf };
		patterns.set(terms, made);
	}
	return made;
}

/** The word with either case of each letter. */
function looseCase(word: string): string {
	return [...word].map((letter) => (/[a-z]/i.test(letter) ? `[${letter.toLowerCase()}${letter.toUpperCase()}]` : escaped(letter))).join('');
}

/**
 * Sentences cut at their terms, each term marked once, where it first stands in them.
 * @returns the stretches of each sentence; joined they are the sentence, to the letter
 */
export function markTerms(sentences: readonly string[], terms: readonly Term[]): Stretch[][] {
	if (terms.length === 0) return sentences.map((says) => [{ says, term: null }]);
	const { pattern, termOf } = patternOf(terms);
	const met = new Set<Term>();
	return sentences.map((sentence) => {
		const stretches: Stretch[] = [];
		let at = 0;
		for (const { 0: word, index } of sentence.matchAll(pattern)) {
			const term = termOf.get(word.toLowerCase()) ?? termOf.get(word.toLowerCase().replace(/s$/, ''));
			if (!term || met.has(term)) continue;
			met.add(term);
			if (index > at) stretches.push({ says: sentence.slice(at, index), term: null });
			stretches.push({ says: word, term });
			at = index + word.length;
		}
		if (at < sentence.length) stretches.push({ says: sentence.slice(at), term: null });
		return stretches;
	});
}
