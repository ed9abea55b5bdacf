/** Names and addresses as people write them, and as they are compared. */
import { z } from 'zod';

/**
 * Characters that a reader cannot see or that turn the text around them: control, format, unassigned and private ones, line and paragraph
 * ends, what Unicode lets a font leave out, and the empty pattern of braille.
 */
const unseen = /[\p{C}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}\u2800]/u;

/** More marks on one letter than any script needs: they would hang over the lines above and below. */
const heap = /\p{M}{5}/u;

/** Whether a text holds nothing that cannot be seen and no heap of marks. */
export const isLegible = (text: string): boolean => !unseen.test(text) && !heap.test(text);

/** The same of a text that may have several lines, with tabs and signs that say how an emoji is drawn. */
export const isLegibleText = (text: string): boolean => isLegible(text.replace(/[\t\n\r\uFE0E\uFE0F]/g, ''));

const lengthOf = (text: string) => [...text].length;

/** A name, with its compatibility forms made one (NFKC) and runs of spaces made one space. */
export const accountName = z
	.string('Choose a name.')
	.transform((said) => said.slice(0, 1000).normalize('NFKC').trim().replace(/ +/g, ' '))
	.refine((name) => name !== '', 'Choose a name.')
	.refine((name) => !unseen.test(name), 'This name holds a character that cannot be seen. Write it anew.')
	.refine((name) => !heap.test(name), 'This name heaps up more marks on one letter than any script does.')
	.refine((name) => name === '' || (lengthOf(name) >= 2 && lengthOf(name) <= 40), 'A name has 2 to 40 characters.')
	.refine((name) => name === '' || /[\p{L}\p{N}]/u.test(name), 'A name has at least one letter or figure.');

/**
 * The name as it is compared: `Ann`, `ANN` and `ａｎｎ` are one. Upper case first, because it undoes what lower case leaves apart
 * (`ß` and `ss`).
 */
export function nameKeyOf(name: string): string {
	return name.normalize('NFKC').trim().replace(/ +/g, ' ').toUpperCase().toLowerCase().normalize('NFKC');
}

/** An address, or null where none is given. */
export const optionalEmail = z
	.string()
	.optional()
	.transform((said) => said?.trim() ?? '')
	.refine((email) => email.length <= 254, 'An e-mail address has at most 254 characters.')
	.refine((email) => email === '' || z.email().safeParse(email).success, 'This is no e-mail address. It may be left empty.')
	.transform((email) => email || null);
