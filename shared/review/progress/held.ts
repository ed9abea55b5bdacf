/** When a skill counts as held: one rule, for the map of a cohort and for a record of practice. */
import type { Recall } from '#shared/marking/recall.ts';

/**
 * Recall from which a skill counts as held, where it was not lost when it was shown last. A judgement of ours: a little under the recall at
 * which practice comes back to whoever has chosen nothing, so that one who is due tonight is not called weak.
 */
export const heldFrom = 0.8;

/** What is remembered of a skill, as far as the rule asks. */
export interface Recalled {
	/** Recall now, 0 to 1. */
	readonly now: number;
	/** How it was shown last. */
	readonly shown: Recall;
}

/** Whether somebody holds what they remember so. */
export const isHeld = ({ now, shown }: Recalled): boolean => shown !== 'lost' && now >= heldFrom;
