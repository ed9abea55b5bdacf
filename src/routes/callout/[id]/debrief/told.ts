/** How much a reading told, in words. */
import type { ReadingReason } from '#shared/marking/mark-sheet.ts';

/** Bits from which a reading told much, and something. */
const much = 1;
const something = 0.25;
/** Below this it told next to nothing. */
const tells = 0.05;

type Told = Pick<ReadingReason, 'bits' | 'confirms' | 'ruledOut' | 'ruledIn'>;

/** What moved a fault in or out told something, however few its bits. */
const moved = ({ ruledOut, ruledIn }: Told): boolean => ruledOut.length + ruledIn.length > 0;

export function toldWords(reason: Told): string {
	if (reason.bits >= much) return 'It told much';
	if (reason.bits >= something || moved(reason)) return 'It told something';
	return reason.confirms ? 'It confirmed what the customer said' : 'It told next to nothing';
}

/** Whether it belongs with those that told next to nothing. */
export const isSilent = (reason: Told): boolean => reason.bits < tells && !moved(reason) && !reason.confirms;
