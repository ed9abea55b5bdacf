/** What coaching shows beside a check. */
import { openPrediction } from '#shared/callout/prediction.ts';
import type { CheckOffer } from '#shared/callout/view.ts';
import type { Gap } from '#shared/marking/mark-sheet.ts';
import type { Bench } from '../bench';

/** Whether a prediction can be written down for the check now. */
export function canPredict({ coaching, view }: Bench, check: Pick<CheckOffer, 'unmet' | 'known'>): boolean {
	return coaching !== null && !check.known && check.unmet.length === 0 && openPrediction(view) === null;
}

/** Whether coaching asks for one before it. */
export const isAskedFirst = (bench: Bench, check: CheckOffer): boolean => bench.coaching?.asks === true && canPredict(bench, check);

/** The latest comparison of a check, or null. */
export const gapAt = ({ gaps }: Bench, check: string): Gap | null => gaps?.findLast((gap) => gap.check === check) ?? null;
