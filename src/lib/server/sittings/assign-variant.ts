/** Which variant a member sits. */
import { and, asc, eq, sql } from 'drizzle-orm';
import { hash32 } from '#shared/quantity/hash32.ts';
import type { Database } from '../database/open.ts';
import { member, sitting, variantItem } from '../database/schema.ts';

/**
 * Round the register in turn, so that neighbours on it differ and each variant is given as often as any other, to within one. Where a paper
 * begins depends on the paper, so that the first name does not always sit the first. A further attempt gets the variant after, and none that
 * the member has sat while another is left, whatever became of the register meanwhile.
 * @param number  of the attempt, from 1
 * @returns the variant's number; null where the paper has none
 */
export function variantFor(db: Database, of: { paper: string; cohort: string; member: string }, number: number): number | null {
	const numbers = db
		.selectDistinct({ variant: variantItem.variant })
		.from(variantItem)
		.where(eq(variantItem.paper, of.paper))
		.orderBy(asc(variantItem.variant))
		.all();
	const register = db
		.select({ id: member.id })
		.from(member)
		.where(eq(member.cohort, of.cohort))
		.orderBy(asc(member.created), asc(sql`rowid`))
		.all();
	const place = register.findIndex(({ id }) => id === of.member);
	if (numbers.length === 0 || place < 0) return null;
	const first = (hash32(of.paper, 0) >>> 0) % numbers.length;
	const from = (first + place + number - 1) % numbers.length;
	const inTurn = [...numbers.slice(from), ...numbers.slice(0, from)].map(({ variant }) => variant);
	const sat = db
		.select({ variant: sitting.variant })
		.from(sitting)
		.where(and(eq(sitting.paper, of.paper), eq(sitting.member, of.member)))
		.all();
	return inTurn.find((variant) => sat.every((one) => one.variant !== variant)) ?? inTurn[0]!;
}
