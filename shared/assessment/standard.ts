/** A pass mark from what judges expect of a learner who only just passes (modified Angoff). */
import { mean, sampleStandardDeviation } from 'simple-statistics';

export interface Standard {
	/** Marks to reach: the mean of the judges' sums. */
	readonly cut: number;
	/** All marks. */
	readonly outOf: number;
	/** The cut as a share of all marks [percent]. */
	readonly percent: number;
	/** Of the cut [marks], and as a share of all marks [percent]: how far another panel of as many such judges might come out. Null for one judge. */
	readonly standardError: number | null;
	readonly standardErrorPercent: number | null;
	readonly judges: number;
	/** Marks that each judge's estimates come to, in the order given. */
	readonly byJudge: readonly number[];
	/** Expected share of each slot's marks over the judges, and how far they differ (standard deviation; null for one judge). */
	readonly bySlot: readonly { readonly mean: number; readonly sd: number | null }[];
}

/**
 * The cut is the sum over slots of the mean expected share times the slot's marks; its standard error is the standard deviation of the
 * judges' sums over the root of their number. It tells of the judges alone, not of the paper or of those who sit it.
 * @param estimates by judge, then by slot: share of the slot's marks that a learner who only just passes would get, 0 to 1
 * @param weights   marks of each slot, >= 0
 * @returns null where there is no judge, or there are no marks to get
 * @throws RangeError for an estimate outside of 0 to 1, or a judge with more or fewer estimates than slots
 * @see Angoff 1971, in Thorndike (ed.), Educational Measurement, 2nd ed., 508-600 (from memory); checked in tests/published/standard-setting.test.ts
 */
export function angoff(estimates: readonly (readonly number[])[], weights: readonly number[]): Standard | null {
	const outOf = weights.reduce((sum, weight) => sum + weight, 0);
	for (const judge of estimates) {
		if (judge.length !== weights.length) throw new RangeError(`a judge gave ${judge.length} estimates for ${weights.length} slots`);
		const wrong = judge.find((share) => !(share >= 0 && share <= 1));
		if (wrong !== undefined) throw new RangeError(`an estimate from 0 to 1 is expected, not ${wrong}`);
	}
	if (estimates.length === 0 || !(outOf > 0)) return null;
	const byJudge = estimates.map((judge) => judge.reduce((sum, share, slot) => sum + share * weights[slot], 0));
	const cut = mean(byJudge);
	const standardError = spread(byJudge) === null ? null : spread(byJudge)! / Math.sqrt(byJudge.length);
	return {
		cut,
		outOf,
		percent: (100 * cut) / outOf,
		standardError,
		standardErrorPercent: standardError === null ? null : (100 * standardError) / outOf,
		judges: byJudge.length,
		byJudge,
		bySlot: weights.map((_, slot) => {
			const shares = estimates.map((judge) => judge[slot]);
			return { mean: mean(shares), sd: spread(shares) };
		})
	};
}

const spread = (values: number[]): number | null => (values.length < 2 ? null : sampleStandardDeviation(values));
