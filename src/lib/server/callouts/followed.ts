/** What an assessor who watches a sitting is told of a callout in it. */
import { eventLine } from '#shared/callout/view-of.ts';
import type { LiveAttempts } from './live.ts';

export interface Breach {
	/** The rule, in a sentence. */
	readonly says: string;
	readonly dangerous: boolean;
}

export interface Followed {
	/** Actions that are told of. */
	readonly actions: number;
	/** The last of them, in words; null before the first. */
	readonly did: string | null;
	/** Of all of them, in the order they were stopped. */
	readonly breaches: readonly Breach[];
}

/** Of an attempt that is being played nothing is worked out anew: its state is kept from the action itself. */
export function followedIn({ bringUp }: LiveAttempts) {
	return {
		/** @returns null where it cannot be played again */
		followed(attemptId: string, learnerId: string): Followed | null {
			const one = bringUp(attemptId, learnerId);
			if (one.outcome !== 'live') return null;
			const { callout, state } = one;
			const lines = state.events.filter(({ breaches }, at) => breaches.length > 0 || at === state.events.length - 1);
			const told = lines.map((event) => eventLine(callout, event));
			return {
				actions: state.events.length,
				did: told.at(-1)?.did ?? null,
				breaches: told.flatMap(({ breaches }) => breaches.map(({ says, dangerous }) => ({ says, dangerous })))
			};
		}
	};
}
