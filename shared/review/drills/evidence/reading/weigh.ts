/** When a reading that sound machines give speaks against a suspicion, and when it says nothing of it. */
import type { Suspected } from './suspect.ts';

/** The reading is at least five times likelier without the fault, and few of its machines read like sound ones: it speaks against it. */
const against = { ratio: 1 / 5, within: 0.3 };
/** With the fault it is at least half as likely as without, and most of its machines read like sound ones: it says nothing of it. */
const alike = { ratio: 1 / 2, within: 0.5 };

/** @returns null where it is neither clearly one nor the other */
export function weighSound({ ratio, within }: Pick<Suspected, 'ratio' | 'within'>): 'sound' | 'cannot-tell' | null {
	if (ratio <= against.ratio && within <= against.within) return 'sound';
	return ratio >= alike.ratio && within >= alike.within ? 'cannot-tell' : null;
}
