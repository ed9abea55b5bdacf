/** Codes by which cohorts are joined. */
import { randomInt } from 'node:crypto';

/** No vowels, so that no word comes of it, and no two that look alike: neither I nor 1, O nor 0, S nor Z nor B. */
const alphabet = 'CDFGHJKMNPQRTVWXY23456789';
const length = 8;

/** Letters that are written for a figure of the alphabet, or read for it. */
const readAs: Readonly<Record<string, string>> = { S: '5', Z: '2', B: '8' };

/** A code that nobody can guess: one of 25^8, about 150 thousand million, where an address may try three hundred in a quarter of an hour. */
export function newCode(): string {
	return Array.from({ length }, () => alphabet[randomInt(alphabet.length)]).join('');
}

/** The code that somebody wrote, in small letters, with spaces, or as the end of its link; null where it can be none. */
export function codeFrom(said: string): string | null {
	const end = said.slice(0, 300).trim().split('/').at(-1)!;
	const code = [...end.toUpperCase().replace(/[\s-]/g, '')].map((letter) => readAs[letter] ?? letter).join('');
	return code.length === length && [...code].every((letter) => alphabet.includes(letter)) ? code : null;
}
