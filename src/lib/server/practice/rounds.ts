/** Tonight's round: planned, begun, gone through item by item, and shut when it is done, called off, or the learner's day has turned. */
import { randomBytes } from 'node:crypto';
import { dayOf, startOfDay } from '#shared/review/memory/learner-day.ts';
import { roundMinutes, type RoundItem } from '#shared/review/round/round.ts';
import { reviewLogIn } from '../database/review-log.ts';
import { roundsIn } from '../database/rounds.ts';
import type { RoundRow } from '../database/schema.ts';
import { beginItemIn, begunAs, over, type GoneOn } from './begin-item.ts';
import type { Memories } from './memories.ts';
import { isDone, nextOf, roundItemsIn, type Item, type ItemParts } from './round-items.ts';
import { roundView, type NextJob, type RefresherName, type RoundView } from './round-view.ts';
import { shownOf, type Shown, type Telling } from './shown.ts';

/** The way on from a page that belongs to a round. */
export interface WayOn {
	readonly next: NextJob | null;
	/** Jobs not done yet. */
	readonly waiting: number;
	/** Where it is a refresher. */
	readonly refresher: RefresherName | null;
}

export type Begun = { readonly outcome: 'begun' } | { readonly outcome: 'invalid'; readonly says: string };

/** Why no round of these minutes can be begun, in a sentence; null where one can. */
export function noSuchLength(minutes: number): string | null {
	return roundMinutes.some((one) => one === minutes) ? null : `A round lasts ${roundMinutes.join(', ')} minutes.`;
}

export interface RoundParts extends ItemParts {
	readonly memories: Memories;
}

export type Rounds = ReturnType<typeof roundServiceIn>;

export function roundServiceIn(parts: RoundParts) {
	const { db, callouts, drills, memories, plans } = parts;
	const rounds = roundsIn(db);
	const log = reviewLogIn(db);
	const itemsOf = roundItemsIn(parts);
	const beginItem = beginItemIn(db, callouts, drills);

	/** Shuts a round whose items are all done, or whose night is over. */
	function shutWhereOver(round: RoundRow, items: readonly Item[], now: number): RoundRow {
		if (round.ended) return round;
		const { zone } = memories.schedulerOf(round.learner);
		const night = dayOf(round.created.getTime(), zone);
		const isPast = dayOf(now, zone) > night;
		if (!isPast && !items.every(isDone)) return round;
		const ended = new Date(isPast ? startOfDay(night + 1, zone) : now);
		rounds.end(round.id, ended);
		return { ...round, ended };
	}

	/** The round that the learner began last, open or shut. */
	function latest(learnerId: string, now: number): { round: RoundRow; items: Item[] } | null {
		const found = rounds.latest(learnerId);
		if (!found) return null;
		const items = itemsOf(found);
		return { round: shutWhereOver(found, items, now), items };
	}

	/** The open round. */
	function open(learnerId: string, now: number): { round: RoundRow; items: Item[] } | null {
		const found = latest(learnerId, now);
		return found && !found.round.ended ? found : null;
	}

	/** Whether a round is open, or was shut in this night of the learner. */
	function isOfTonight({ learner, created, ended }: RoundRow, now: number): boolean {
		const { zone } = memories.schedulerOf(learner);
		return ended === null || dayOf(created.getTime(), zone) === dayOf(now, zone);
	}

	function tellingTo(learnerId: string, now: number): Telling {
		return { skills: plans.skills, memories: memories.of(learnerId), zone: memories.schedulerOf(learnerId).zone, now };
	}

	function viewOf({ round, items }: { round: RoundRow; items: Item[] }, now: number): RoundView {
		return roundView(round, items, tellingTo(round.learner, now), plans.families);
	}

	/** To be called within a transaction in which it was seen that none is open. */
	function add(row: Omit<RoundRow, 'id' | 'created' | 'ended'>, items: readonly RoundItem[], now: number): string {
		const id = randomBytes(16).toString('base64url');
		rounds.add(
			{ ...row, id, created: new Date(now), ended: null },
			items.map((item, place) => ({ round: id, place, skill: item.skill, content: JSON.stringify(item) }))
		);
		return id;
	}

	return {
		/** The open round, else the one that was shut in this night of the learner, else null. */
		tonight(learnerId: string, now: number): RoundView | null {
			const found = latest(learnerId, now);
			return found && isOfTonight(found.round, now) ? viewOf(found, now) : null;
		},

		/** The length that was chosen last [min]. */
		lastMinutes: (learnerId: string): number | null => rounds.latestOfNights(learnerId)?.minutes ?? null,

		/** Begins a round; where one is open, that one stays. */
		async begin(learnerId: string, minutes: number, now: number): Promise<Begun> {
			const says = noSuchLength(minutes);
			if (says) return { outcome: 'invalid', says };
			const plan = await plans.planFor(learnerId, minutes, now);
			db.transaction(
				() => {
					if (open(learnerId, now) || plan.items.length === 0) return;
					add({ learner: learnerId, minutes, refresher: null }, plan.items, now);
				},
				{ behavior: 'immediate' }
			);
			return { outcome: 'begun' };
		},

		/**
		 * Begins a round of items that were chosen for it.
		 * @param row       whose, of what length and for which families
		 * @param endsOpen  whether one that is open is ended for it; what was done in it counts
		 * @returns its id, or how far the open one has come
		 */
		beginWith(
			row: Pick<RoundRow, 'learner' | 'minutes' | 'refresher'>,
			items: readonly RoundItem[],
			now: number,
			endsOpen: boolean
		): { readonly id: string } | { readonly open: RoundView } {
			return db.transaction(
				() => {
					const found = open(row.learner, now);
					if (found && !endsOpen) return { open: viewOf(found, now) };
					if (found) rounds.end(found.round.id, new Date(now));
					return { id: add(row, items, now) };
				},
				{ behavior: 'immediate' }
			);
		},

		/** A round of this learner, however long ago; shut where its night is over. */
		find(id: string, learnerId: string, now: number): { round: RoundRow; items: Item[]; view: RoundView } | null {
			const found = rounds.find(id);
			if (found?.learner !== learnerId) return null;
			const items = itemsOf(found);
			const round = shutWhereOver(found, items, now);
			return { round, items, view: viewOf({ round, items }, now) };
		},

		/** To what is next in the open round, begun where it has not been. */
		async goOn(learnerId: string, now: number): Promise<GoneOn> {
			for (;;) {
				const found = open(learnerId, now);
				const next = found && nextOf(found.items);
				if (!next) return over;
				const gone = begunAs(next.row) ?? (await beginItem(learnerId, next, now));
				// What has nothing to ask is passed over from now on, and holds nobody up.
				if (gone.outcome !== 'nothing') return gone;
			}
		},

		/** Calls it a night: what was done counts. */
		end(learnerId: string, now: number): void {
			const found = open(learnerId, now);
			if (found) rounds.end(found.round.id, new Date(now));
		},

		/** The way on from an attempt or a drill of this learner, where it belongs to tonight's round. */
		wayOn(learnerId: string, played: { readonly attempt: string } | { readonly drill: string }, now: number): WayOn | null {
			const holding = rounds.holding(played);
			const found = holding?.learner === learnerId ? latest(learnerId, now) : null;
			if (!found || found.round.id !== holding!.id || !isOfTonight(found.round, now)) return null;
			const view = viewOf(found, now);
			const waiting = view.isOpen ? found.items.filter((item) => !isDone(item)).length : 0;
			return { next: view.next, waiting, refresher: view.refresher };
		},

		/** What an attempt showed; null while it is not in the log. */
		shownByAttempt(attempt: string, learnerId: string, now: number): readonly Shown[] {
			const reviews = log.ofAttempt(attempt).filter(({ learner }) => learner === learnerId);
			return shownOf(reviews, tellingTo(learnerId, now));
		}
	};
}
