import { createHash } from 'node:crypto';

/** SHA-256 of a text, hexadecimal. What is kept of a secret whose holder shows it again: nothing in the database file opens anything. */
export function digestOf(text: string): string {
	return createHash('sha256').update(text).digest('hex');
}
