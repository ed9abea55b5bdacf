/** How lists are put in sentences of a refresher. */

/** `a`, `a or b`, `a, b or c`. */
export function anyOf(words: readonly string[]): string {
	return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;
}

/** With a full stop, unless there is one. */
export const ended = (words: string): string => (/[.?]$/.test(words) ? words : `${words}.`);
