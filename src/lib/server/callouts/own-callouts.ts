/** What a learner has on the books, for the list of callouts. */
import { findCallout } from './callouts.ts';
import { attemptsIn } from '../database/attempts.ts';
import { database } from '../database/open.ts';
import { inventedLearner } from './demo.ts';

export interface OwnCallout {
	readonly id: string;
	readonly family: string;
	readonly complaint: string;
	/** Minutes spent on site so far. */
	readonly minutes: number;
	readonly readings: number;
	readonly started: Date;
	readonly ended: Date | null;
}

/** One that cannot be played on, and why not. */
export interface UnplayableCallout extends Pick<OwnCallout, 'id' | 'started' | 'ended'> {
	readonly says: string;
}

/** The learner's callouts, running and ended, the latest first. */
export function ownCallouts(learnerId: string, limit = 30): (OwnCallout | UnplayableCallout)[] {
	const rows = attemptsIn(database()).latest(learnerId, limit);
	return rows.flatMap(({ id, created, ended }): (OwnCallout | UnplayableCallout)[] => {
		const found = findCallout(id, learnerId);
		if (found.outcome === 'missing') return [];
		if (found.outcome === 'unplayable') return [{ id, started: created, ended, says: found.says }];
		const { family, complaint, minutes, readings } = found.view;
		return [{ id, family: family.short, complaint, minutes, readings: readings.length, started: created, ended }];
	});
}

/** The callout that the learner began last and has not ended, among the last few. */
export function runningCallout(learnerId: string): OwnCallout | null {
	const lastFew = 5;
	const running = ownCallouts(learnerId, lastFew).find((one): one is OwnCallout => one.ended === null && 'complaint' in one);
	return running ?? null;
}

/** Finished callouts that were invented, and are to be shown as invented; anyone may see their debriefs. Of no use once unplayable. */
export function exampleCallouts(): OwnCallout[] {
	const invented = inventedLearner(database());
	return invented === undefined ? [] : ownCallouts(invented).filter((one) => 'complaint' in one);
}
