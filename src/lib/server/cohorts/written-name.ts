/** Names as an assessor writes them, of cohorts and on a register. */
import { z } from 'zod';
import { isLegible } from '../accounts/names.ts';

/** What a spreadsheet would take for a formula. */
const formula = /^[=+@\-\t\r]/;

/**
 * A name for a page, a slip and a spreadsheet: with what cannot be seen refused, and what would be worked out by a spreadsheet.
 * @param none  what is said where there is none
 * @param most  characters
 */
export const writtenName = (none: string, most: number) =>
	z
		.string(none)
		.transform((said) => said.slice(0, 1000).normalize('NFKC').trim().replace(/\s+/g, ' '))
		.refine((name) => name !== '', none)
		.refine((name) => [...name].length <= most, `A name has at most ${most} characters.`)
		.refine((name) => !formula.test(name), 'A name does not begin with a sign of reckoning: a spreadsheet would take it for a formula.')
		.refine(isLegible, 'This name holds what cannot be read. Write it anew.')
		.refine((name) => name === '' || /[\p{L}\p{N}]/u.test(name), 'A name has at least one letter or figure.');
