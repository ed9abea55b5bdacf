/** What the pages of tonight's round ask for. */
import { roundMinutes } from '#shared/review/round/round.ts';
import type { Offer } from './plans.ts';
import { practice } from './practice.ts';
import type { GoneOn } from './begin-item.ts';
import type { RoundView } from './round-view.ts';
import { noSuchLength, type Begun } from './rounds.ts';

/** What is offered to somebody who has not chosen yet [min]. */
const usualMinutes = roundMinutes[1];

export interface Tonight {
	readonly round: RoundView | null;
	/** What a round begun now would hold; null while one is open. */
	readonly offer: Offer | null;
}

/** @param learnerId  null for a visitor who is no learner yet */
export async function tonight(learnerId: string | null, now = Date.now()): Promise<Tonight> {
	const { rounds, plans } = practice();
	const round = learnerId === null ? null : rounds.tonight(learnerId, now);
	if (round?.isMarking) settleMarking(learnerId!);
	if (round?.isOpen) return { round, offer: null };
	const minutes = (learnerId !== null && rounds.lastMinutes(learnerId)) || usualMinutes;
	return { round, offer: await plans.offer(learnerId, minutes, now) };
}

/** Callouts that ended before they could be marked, as where the server was stopped in between, are marked now. */
function settleMarking(learnerId: string): void {
	const { reviews } = practice();
	for (const id of reviews.unsettledOf(learnerId)) void reviews.settleSoon(id);
}

export { noSuchLength };

export const beginRound = (learnerId: string, minutes: number, now = Date.now()): Promise<Begun> =>
	practice().rounds.begin(learnerId, minutes, now);
export const goOn = (learnerId: string, now = Date.now()): Promise<GoneOn> => practice().rounds.goOn(learnerId, now);
export const endRound = (learnerId: string, now = Date.now()): void => practice().rounds.end(learnerId, now);
