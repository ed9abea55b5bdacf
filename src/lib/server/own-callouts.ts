/** What a learner has on the books, for the list of callouts. */
import { loadCallout } from './callouts.ts';
import { attemptsIn } from './database/attempts.ts';
import { database } from './database/open.ts';
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

/** The learner's callouts, running and ended, the latest first. */
export function ownCallouts(learnerId: string, limit = 30): OwnCallout[] {
	const rows = attemptsIn(database()).latest(learnerId, limit);
	return rows.flatMap(({ id, created, ended }) => {
		const view = loadCallout(id, learnerId)?.view;
		if (!view) return [];
		const { family, complaint, minutes, readings } = view;
		return [{ id, family: family.short, complaint, minutes, readings: readings.length, started: created, ended }];
	});
}

/** Finished callouts that were invented, and are to be shown as invented; anyone may see their debriefs. */
export function exampleCallouts(): OwnCallout[] {
	const invented = inventedLearner(database());
	return invented === undefined ? [] : ownCallouts(invented);
}
