/** What is in a round: each item as stored, what it asks for, and how far it has come. */
import type { RoundItem } from '#shared/review/round/round.ts';
import type { Callouts } from '../callouts/callouts.ts';
import type { Database } from '../database/open.ts';
import { reviewLogIn } from '../database/review-log.ts';
import { roundsIn, type ItemRow } from '../database/rounds.ts';
import type { ReviewRow, RoundRow } from '../database/schema.ts';
import type { Drills } from './drills.ts';
import type { Plans } from './plans.ts';

/** `marking`: done, and what it showed is being worked out; `over`: this version cannot play it. */
export type ItemState = 'waiting' | 'begun' | 'marking' | 'done' | 'over';

export interface Item {
	readonly row: ItemRow;
	readonly wanted: RoundItem;
	readonly state: ItemState;
	/** What it has put into the log, its own skill first. */
	readonly reviews: readonly ReviewRow[];
}

/** Whether there is nothing left to do about it. */
export const isDone = ({ state }: Pick<Item, 'state'>): boolean => state === 'done' || state === 'marking' || state === 'over';

/** The first that is not done. */
export const nextOf = (items: readonly Item[]): Item | undefined => items.find((item) => !isDone(item));

export interface ItemParts {
	readonly db: Database;
	readonly callouts: Callouts;
	readonly drills: Drills;
	readonly plans: Plans;
}

/** @returns the items of a round, in their order */
export function roundItemsIn({ db, callouts, drills, plans }: ItemParts): (round: RoundRow) => Item[] {
	const rounds = roundsIn(db);
	const log = reviewLogIn(db);

	function stateOf(row: ItemRow, wanted: RoundItem, learner: string): ItemState {
		if (row.attempt !== null) {
			if (row.attemptEnded) return row.attemptReviewed ? 'done' : 'marking';
			return callouts.find(row.attempt, learner).outcome === 'standing' ? 'begun' : 'over';
		}
		if (row.drill !== null) {
			if (row.drillAnswered) return 'done';
			const asked = drills.row(row.drill, learner);
			return asked && !drills.isOver(asked) ? 'begun' : 'over';
		}
		return plans.canPlay(wanted) ? 'waiting' : 'over';
	}

	function reviewsOf({ attempt, drill, skill }: ItemRow): ReviewRow[] {
		const found = [...(attempt === null ? [] : log.ofAttempt(attempt)), ...(drill === null ? [] : log.ofDrill(drill))];
		return found.toSorted((a, b) => Number(b.skill === skill) - Number(a.skill === skill));
	}

	return ({ id, learner }) =>
		rounds.items(id).map((row) => {
			const wanted = JSON.parse(row.content) as RoundItem;
			return { row, wanted, state: stateOf(row, wanted, learner), reviews: reviewsOf(row) };
		});
}
