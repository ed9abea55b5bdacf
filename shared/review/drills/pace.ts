/** How a drill's answer shows recall. The rule is our own: no source gives one. */
import type { Recall } from '#shared/marking/recall.ts';

/** What time an answer to a drill may take [s]. */
export interface Pace {
	/** Up to here a right answer is fluent. */
	readonly quickSeconds: number;
	/** Beyond here a right answer is laboured. */
	readonly slowSeconds: number;
}

export type Outcome = 'right' | 'nearly' | 'wrong';

/**
 * Right and quick is fluent, right is sound, right but very slow or nearly right is laboured, wrong is lost. The rule is our own.
 * @param seconds between question and answer, >= 0
 */
export function recallOf(outcome: Outcome, seconds: number, pace: Pace): Recall {
	if (outcome === 'wrong') return 'lost';
	if (outcome === 'nearly' || seconds > pace.slowSeconds) return 'laboured';
	return seconds <= pace.quickSeconds ? 'fluent' : 'sound';
}
