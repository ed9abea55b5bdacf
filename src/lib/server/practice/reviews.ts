/** What ended callouts showed, put into the log once each. */
import { helpTaken } from '#shared/callout/prediction.ts';
import { reviewsOf } from '#shared/review/memory/recall-of.ts';
import type { Callouts } from '../callouts/callouts.ts';
import { attemptsIn } from '../database/attempts.ts';
import type { Database } from '../database/open.ts';
import { reviewLogIn } from '../database/review-log.ts';
import { log } from '../log.ts';
import { isHeldBack } from '../sittings/release.ts';
import type { Memories } from './memories.ts';
import { ownMinutes } from './own-minutes.ts';

export type Reviews = ReturnType<typeof reviewsIn>;

export function reviewsIn(db: Database, callouts: Callouts, memories: Memories) {
	const attempts = attemptsIn(db);
	const reviewLog = reviewLogIn(db);
	const settling = new Map<string, Promise<void>>();

	async function settleNow(id: string, now: number): Promise<void> {
		const attempt = attempts.find(id);
		if (!attempt?.ended || attempt.reviewed || isHeldBack(db, { attempt: id }, now)) return;
		const { ended } = attempt;
		const debriefed = await callouts.debrief(id, attempt.learner);
		if (debriefed.outcome === 'unplayable') {
			reviewLog.markReviewed(id, new Date());
			log.warn({ attempt: id }, 'An ended callout cannot be played again by this version; it shows no skill.');
		}
		if (debriefed.outcome !== 'debriefed') return;
		const minutes = ownMinutes([attempt.created, ...attempts.actions(id).map(({ at }) => at)].map(Number));
		const { debrief } = debriefed;
		db.transaction(
			() => {
				// Another process, or a second settling, may have been first; a guest may have signed in or gone meanwhile.
				const learner = attempts.find(id)?.learner;
				if (learner === undefined || reviewLog.isGone(learner) || !reviewLog.markReviewed(id, new Date())) return;
				const begun = new Set(reviewLog.all(learner).flatMap(({ skill, at }) => (at < ended ? [skill] : [])));
				const sat = { family: attempt.family, at: ended.getTime(), minutes, helped: helpTaken(debriefed.callout.view), begun };
				for (const review of reviewsOf(debrief, sat)) {
					reviewLog.add({ ...review, at: new Date(review.at), learner, attempt: id });
					memories.take(learner, review);
				}
			},
			{ behavior: 'immediate' }
		);
	}

	/**
	 * Puts what an ended callout showed into the log, unless it is there; waits for the debrief. Of no effect while the callout runs, and while
	 * it is of a sitting that must not be told yet.
	 * @param now [ms since 1970]
	 * @throws WeighingFailed, or what the making of the evidence table failed with
	 */
	function settle(id: string, now = Date.now()): Promise<void> {
		let done = settling.get(id);
		if (!done) {
			done = settleNow(id, now).finally(() => settling.delete(id));
			settling.set(id, done);
		}
		return done;
	}

	/** The same in the background. What fails is logged, and tried again at the next look and at the next start. */
	async function settleSoon(id: string, now = Date.now()): Promise<void> {
		try {
			await settle(id, now);
		} catch (error) {
			log.error({ attempt: id, error: String(error) }, 'What a callout showed could not be worked out.');
		}
	}

	return {
		settle,
		settleSoon,
		/** Ended attempts of one learner that are not in the log. */
		unsettledOf: (learnerId: string, now = Date.now()): string[] => reviewLog.unreviewed(now, learnerId),
		/** Settles what ended before the last stop and is not in the log, one after the other. Invented learners have no log. */
		async settleEnded(now = Date.now()): Promise<void> {
			for (const id of reviewLog.unreviewed(now)) await settleSoon(id, now);
		}
	};
}
