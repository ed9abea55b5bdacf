/** How coaching stands for a learner at a callout. */
import type { Coaching } from '$lib/bench/bench.ts';
import type { CalloutView } from '#shared/callout/view.ts';
import { askEvery, askingInWords, asksNow, stabilitiesIn } from '#shared/review/coaching/fade.ts';
import { database } from '../database/open.ts';
import { memoriesIn, type Memories } from '../practice/memories.ts';

/** How it stands now, by what the learner's log makes of the family's skills. */
export function coachingOf(learnerId: string, view: CalloutView): Coaching {
	memories ??= memoriesIn(database());
	return coachingAt(view, stabilitiesIn(view.family.id, [...memories.of(learnerId).values()]));
}
let memories: Memories | undefined;

/** @param stabilities  of the skills that the learner has begun in the callout's family [days] */
export function coachingAt({ events }: Pick<CalloutView, 'events'>, stabilities: readonly number[]): Coaching {
	const every = askEvery(stabilities);
	// A check that was stopped brought no reading, and is asked for again.
	const taken = events.filter(({ kind, breaches }) => kind === 'check' && breaches.length === 0).length;
	return { asks: asksNow(every, taken), says: askingInWords(every) };
}
