/** What follows a callout that has ended: its skills go into the log, and its debrief says so. */
import type { Debrief } from '#shared/marking/mark-sheet.ts';
import type { RunningCallout } from '../callouts/outcomes.ts';
import { debriefSoon, type Soon } from '../debriefs/debrief-soon.ts';
import { database } from '../database/open.ts';
import { log } from '../log.ts';
import { inAMoment } from '../patience.ts';
import { isReleased, sittingHolding } from '../sittings/release.ts';
import { practice } from './practice.ts';
import type { WayOn } from './rounds.ts';
import type { Shown } from './shown.ts';

/** Puts what an ended callout showed into the log, in the background. */
export function reviewSoon(attemptId: string): void {
	void practice().reviews.settleSoon(attemptId);
}

/** Puts what was left behind by the last stop of the server into the log, in the background. */
export async function reviewLeftBehind(): Promise<void> {
	try {
		await practice().reviews.settleEnded();
	} catch (error) {
		log.error({ error: String(error) }, 'Ended callouts could not be reviewed; the next start tries again.');
	}
}

export interface DebriefPage {
	readonly outcome: 'debriefed';
	readonly debrief: Debrief;
	readonly callout: RunningCallout;
	readonly invented: boolean;
	/** How each skill was shown and when it comes back; empty for somebody else's callout, and while it is being worked out. */
	readonly shown: readonly Shown[];
	/** The way on, where the callout belongs to a round. */
	readonly round: WayOn | null;
	/** The learner's own sitting that it belongs to. */
	readonly sitting: string | null;
}

/** It is of a sitting that must not be told yet. */
export interface HeldBack {
	readonly outcome: 'held';
	readonly sitting: string;
}

export type DebriefPageSoon = DebriefPage | HeldBack | Exclude<Soon, { readonly outcome: 'debriefed' }>;

/**
 * The debrief where it is ready, with what it means for practice.
 * @param learnerId  null for a visitor who is no learner yet
 * @throws what the making of the debrief failed with
 */
export async function debriefPage(attemptId: string, learnerId: string | null, now = Date.now()): Promise<DebriefPageSoon> {
	const holding = sittingHolding(database(), { attempt: attemptId });
	if (holding && !isReleased(holding.paper, holding.sitting, now)) {
		// To anybody else it is not there, held back or not.
		return holding.learner === learnerId ? { outcome: 'held', sitting: holding.sitting.id } : { outcome: 'missing' };
	}
	const soon = await debriefSoon(attemptId, learnerId);
	if (soon.outcome !== 'debriefed') return soon;
	const sitting = holding && holding.learner === learnerId ? holding.sitting.id : null;
	if (soon.invented || learnerId === null) return { ...soon, shown: [], round: null, sitting };
	const { reviews, rounds } = practice();
	await inAMoment(reviews.settleSoon(attemptId));
	const shown = rounds.shownByAttempt(attemptId, learnerId, now);
	return { ...soon, shown, round: rounds.wayOn(learnerId, { attempt: attemptId }, now), sitting };
}
