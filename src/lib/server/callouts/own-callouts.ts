/** What a learner has on the books, for the list of callouts. */
import { findCallout } from './callouts.ts';
import { attemptsIn } from '../database/attempts.ts';
import { database } from '../database/open.ts';
import type { Attempt } from '../database/schema.ts';
import { isReleased, sittingHolding } from '../sittings/release.ts';
import { inventedLearner } from './invented-learner.ts';

/** How many are listed. */
const latest = 30;

export interface OwnCallout {
	readonly id: string;
	readonly family: string;
	readonly complaint: string;
	/** Minutes spent on site so far. */
	readonly minutes: number;
	readonly readings: number;
	readonly started: Date;
	readonly ended: Date | null;
	/** Where it is of a paper: the sitting, and whether what came of it may be told. */
	readonly paper: { readonly sitting: string; readonly title: string; readonly isTold: boolean } | null;
}

/** One that cannot be played on, and why not. */
export interface UnplayableCallout extends Pick<OwnCallout, 'id' | 'started' | 'ended'> {
	readonly says: string;
}

/** The learner's callouts, running and ended, the latest first. */
export function ownCallouts(learnerId: string, limit = latest, now = Date.now()): (OwnCallout | UnplayableCallout)[] {
	const rows = attemptsIn(database()).latest(learnerId, limit);
	return rows.flatMap((row) => asListed(row, now));
}

function asListed({ id, learner, created, ended }: Attempt, now: number): (OwnCallout | UnplayableCallout)[] {
	const found = findCallout(id, learner);
	if (found.outcome === 'missing') return [];
	if (found.outcome === 'unplayable') return [{ id, started: created, ended, says: found.says }];
	const { family, complaint, minutes, readings } = found.view;
	const paper = paperOf(id, now);
	return [{ id, family: family.short, complaint, minutes, readings: readings.length, started: created, ended, paper }];
}

function paperOf(id: string, now: number): OwnCallout['paper'] {
	const holding = sittingHolding(database(), { attempt: id });
	if (!holding) return null;
	const { sitting, paper } = holding;
	return { sitting: sitting.id, title: paper.title, isTold: isReleased(paper, sitting, now) };
}

/** The callout that the learner began last for practice and has not ended, among the last few. */
export function runningCallout(learnerId: string, now = Date.now()): OwnCallout | null {
	const lastFew = 5;
	const rows = attemptsIn(database()).latestForPractice(learnerId, lastFew);
	const listed = rows.flatMap((row) => (row.ended === null ? asListed(row, now) : []));
	return listed.find((one): one is OwnCallout => 'complaint' in one) ?? null;
}

/** Finished callouts that were invented, and are to be shown as invented; anyone may see their debriefs. Of no use once unplayable. */
export function exampleCallouts(): OwnCallout[] {
	const invented = inventedLearner(database());
	return invented === undefined ? [] : ownCallouts(invented).filter((one) => 'complaint' in one);
}
