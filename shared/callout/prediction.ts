/** What a check can be predicted to read, and how predictions stand. Light, since the bench carries it. */
import type { Prediction } from './state.ts';

/** Where a number stands against what a sound appliance reads, rising. */
export const directions = ['lower', 'as-sound', 'higher'] as const;
export type Direction = (typeof directions)[number];

/** The fault leaves it open: machines that have it read one thing or another. */
export const cannotTell = 'cannot-tell';

const names: Readonly<Record<string, string>> = {
	lower: 'lower than sound',
	'as-sound': 'as sound',
	higher: 'higher than sound',
	[cannotTell]: 'cannot tell'
};

/**
 * What can be said of a check: a word of its bands, or where its number stands.
 * @param words  of the check's bands; null for a number
 */
export function readsOf(words: readonly string[] | null): readonly string[] {
	return [...(words ?? directions), cannotTell];
}

/** What was predicted, in words; a band's word is its own. */
export const readsInWords = (reads: string): string => names[reads] ?? reads;

/** The same in few words, where it is plain what a number is held against. */
export const readsInShort = (reads: string): string => readsInWords(reads).replace(' than sound', '');

type Standing = Pick<Prediction, 'observed' | 'lapsed'>;

/** The prediction whose reading is still to come, or null. There is never more than one. */
export function openPrediction<One extends Standing>({ predictions }: { readonly predictions: readonly One[] }): One | null {
	const last = predictions.at(-1);
	return last && last.observed === null && !last.lapsed ? last : null;
}

/**
 * Whether what the predicted faults would in truth read was shown to the learner. From the path alone: where the comparison had to wait for
 * the table of evidence, a prediction that was observed counts all the same.
 */
export function helpTaken({ predictions }: { readonly predictions: readonly Pick<Prediction, 'observed'>[] }): boolean {
	return predictions.some(({ observed }) => observed !== null);
}
