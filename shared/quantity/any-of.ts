/** Lists as they stand in a sentence. */

/** `a`, `a or b`, `a, b or c`; empty for none. */
export function anyOf(words: readonly string[]): string {
	return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;
}
