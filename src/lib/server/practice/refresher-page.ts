/** What the pages of a refresher ask for. */
import { practice } from './practice.ts';
import type { RefresherResult } from './refresher-results.ts';
import type { Compared, RefresherBegun, RefresherChoice, RefresherSheet } from './refreshers.ts';
import type { RefresherFamilies, RoundView } from './round-view.ts';

/** A round that would have to be ended first, in the words of its own page. */
export interface OpenRound {
	/** Short name of the family met, where it is a refresher itself. */
	readonly met: string | null;
	/** Jobs not done yet. */
	readonly waiting: number;
}

export type RefresherPage =
	| { readonly outcome: 'compared'; readonly sheet: RefresherSheet; readonly open: OpenRound | null }
	| Exclude<Compared, { outcome: 'compared' }>;

/** @param learnerId  null for a visitor who is no learner yet */
export const refresherChoice = (learnerId: string | null): RefresherChoice => practice().refreshers.choice(learnerId);

/** @param learnerId  null for a visitor who is no learner yet */
export function refresherPage(families: RefresherFamilies, learnerId: string | null, now = Date.now()): RefresherPage {
	const { refreshers, rounds } = practice();
	const compared = refreshers.compare(families);
	if (compared.outcome !== 'compared') return compared;
	const round = learnerId === null ? null : rounds.tonight(learnerId, now);
	return { ...compared, open: round?.isOpen ? openOf(round) : null };
}

export type NotBegun = Exclude<RefresherBegun['outcome'], 'begun' | 'open'>;

/** Why no refresher of these families can be begun, whoever asks; null where one can. */
export function whyNotBegun(families: RefresherFamilies): NotBegun | null {
	const compared = practice().refreshers.compare(families);
	if (compared.outcome !== 'compared') return compared.outcome;
	return compared.sheet.isPlayable ? null : 'alike';
}

export type BegunOrOpen = Exclude<RefresherBegun, { outcome: 'open' }> | { readonly outcome: 'open'; readonly open: OpenRound };

export function beginRefresher(learnerId: string, families: RefresherFamilies, endsOpen: boolean, now = Date.now()): BegunOrOpen {
	const begun = practice().refreshers.begin(learnerId, families, now, endsOpen);
	return begun.outcome === 'open' ? { outcome: 'open', open: openOf(begun.round) } : begun;
}

/** @param learnerId  null for a visitor who is no learner yet */
export async function refresherResult(id: string, learnerId: string | null, now = Date.now()): Promise<RefresherResult | null> {
	return learnerId === null ? null : practice().refresherResult(id, learnerId, now);
}

function openOf({ refresher, lines }: RoundView): OpenRound {
	const waiting = lines.filter(({ state }) => state === 'waiting' || state === 'begun').length;
	return { met: refresher?.met ?? null, waiting };
}
