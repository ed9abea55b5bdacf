/** Passwords: what may be one, and what is kept of it. The hashing library is known to this file only. */
import { randomBytes } from 'node:crypto';
import { hash, verify, type Options } from '@node-rs/argon2';
import { z } from 'zod';

export const passwordLength = { least: 10, most: 200 } as const;

/**
 * Argon2id with 19 MiB, two passes, one lane: the minimum of OWASP's Password Storage Cheat Sheet since 2023 (*from memory*; the edition
 * of 2021, which was read, asks for 15 MiB). Argon2id and version 0x13 are the library's defaults; a stored hash names what it was made
 * with, and a test holds it against this.
 */
const cost: Options = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

const lengthOf = (text: string) => [...text.normalize('NFKC')].length;

/** No rule of composition: length is what counts, and words are welcome. */
export const newPassword = z
	.string('Choose a password.')
	.refine((password) => lengthOf(password) >= passwordLength.least, `A password has at least ${passwordLength.least} characters.`)
	.refine((password) => lengthOf(password) <= passwordLength.most, `A password has at most ${passwordLength.most} characters.`);

/** A password that is to be checked: no longer than one can be, so that nobody has the server hash a book. */
export const givenPassword = z
	.string('Write your password.')
	.min(1, 'Write your password.')
	.refine((password) => lengthOf(password) <= passwordLength.most, `A password has at most ${passwordLength.most} characters.`);

/** The same characters may arrive composed or not, depending on the keyboard. */
export function hashPassword(password: string): Promise<string> {
	return hash(password.normalize('NFKC'), cost);
}

let decoy: Promise<string> | undefined;

/**
 * Whether the password is the one that was hashed.
 * @param stored  null where there is no such account: then it is held against the hash of a password that nobody knows, so that the
 *   answer costs the same work and takes about the same time
 */
export async function isPassword(stored: string | null, password: string): Promise<boolean> {
	decoy ??= hashPassword(randomBytes(32).toString('base64'));
	const against = stored ?? (await decoy);
	return (await verify(against, password.normalize('NFKC'))) && stored !== null;
}
