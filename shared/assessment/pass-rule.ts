/** Who passes: a mark to reach, and gates that no mark makes up for. */
import { z } from 'zod';
import type { ItemMarks, ItemResult } from './result.ts';

export const passRule = z.strictObject({
	/** Share of all marks to reach [percent]. */
	mark: z.number().min(0).max(100),
	/** A dangerous breach in any callout fails the paper. */
	noDanger: z.boolean(),
	/** Callouts to be put right: cured, with nothing fitted on a guess and nothing dangerous done; 0 where none need be. */
	cured: z.int().min(0).max(20)
});
export type PassRule = z.infer<typeof passRule>;

export interface Outcome {
	readonly got: number;
	readonly outOf: number;
	/** Share of all marks [percent], to a tenth. */
	readonly percent: number;
	readonly passed: boolean;
	/** What the paper was failed for, in sentences; empty where it was passed. */
	readonly because: readonly string[];
}

const percentOf = (got: number, outOf: number) => (outOf === 0 ? 0 : Math.round((1000 * got) / outOf) / 10);
/** Marks are given in tenths, and a sum of them is one. */
const summed = (marks: readonly number[]) => Math.round(10 * marks.reduce((sum, one) => sum + one, 0)) / 10;
const callouts = (count: number) => `${count} ${count === 1 ? 'callout' : 'callouts'}`;

/**
 * @param results  of every slot, as marked
 * @param marks    of every slot, as they stand after moderation
 */
export function outcomeOf(rule: PassRule, results: readonly ItemResult[], marks: readonly ItemMarks[]): Outcome {
	const got = summed(marks.map((item) => item.got));
	const outOf = summed(marks.map((item) => item.outOf));
	const percent = percentOf(got, outOf);
	const played = results.filter((result) => result.kind === 'callout');
	const dangerous = played.filter(({ sheet }) => sheet.failed).length;
	const cured = played.filter((one) => one.cured && one.sheet.recall !== 'lost').length;
	const because = [
		percent < rule.mark ? `${percent} % of the marks were reached, of ${rule.mark} % needed.` : null,
		rule.noDanger && dangerous > 0 ? `A dangerous act was stopped in ${callouts(dangerous)}.` : null,
		cured < rule.cured ? `${callouts(cured)} ended cured without a guess, of ${rule.cured} needed.` : null
	].filter((one) => one !== null);
	return { got, outOf, percent, passed: because.length === 0, because };
}
