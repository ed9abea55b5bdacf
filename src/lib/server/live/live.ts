/** The live view of a paper's sittings, for the assessors of its cohort. */
import { and, eq } from 'drizzle-orm';
import { followedCallout } from '../callouts/callouts.ts';
import { unchangeable } from '../cohorts/changing.ts';
import { paperOf } from '../cohorts/kept.ts';
import { database, type Database } from '../database/open.ts';
import { sitting } from '../database/schema.ts';
import { conflict, missing, refused, type Missing, type Refused } from '../outcomes.ts';
import { reasonOf } from '../sheets/moderation.ts';
import { closeSitting } from '../sittings/closing.ts';
import { followingIn } from './following.ts';
import { mayStillWatch, rowsOf } from './rows.ts';
import { Ticker, type Look, type Shown, type Watcher } from './ticker.ts';
import { wallOf } from './wall.ts';

export interface LivePage extends Shown {
	readonly cohort: string;
	readonly title: string;
	readonly isSet: boolean;
	/** Sample data, which nobody changes. */
	readonly invented: boolean;
}

export interface WantedClosed {
	readonly sitting: unknown;
	readonly reason: unknown;
}
export type Closed = { readonly outcome: 'closed' } | Missing | Refused;

/** @param follow  what a callout has come to, as the callouts' service tells it */
export function liveIn(db: Database, follow: typeof followedCallout) {
	const following = followingIn(db, follow);
	const tickers = new Map<string, Ticker>();

	function tickerOf(paperId: string): Ticker {
		for (const [id, one] of tickers) if (one.watchers === 0 && id !== paperId) tickers.delete(id);
		const ticker = tickers.get(paperId) ?? new Ticker((sessions, now) => lookAt(paperId, sessions, now));
		tickers.set(paperId, ticker);
		return ticker;
	}

	/** One read of the database, so that what it finds belongs together. */
	function lookAt(paperId: string, sessions: readonly string[], now: number) {
		return db.transaction((): Look | null => {
			const rows = rowsOf(db, paperId);
			if (!rows) return null;
			return { wall: wallOf(rows, following.knownOf(rows), now), mayWatch: mayStillWatch(db, paperId, sessions, now) };
		});
	}

	return {
		/** The wall as it stands; null where the assessor has no such paper. */
		page(assessorId: string, cohortId: string, paperId: string): LivePage | null {
			const own = paperOf(db, assessorId, cohortId, paperId);
			const shown = own && tickerOf(paperId).latest();
			if (!shown) return null;
			const { cohort, paper } = own;
			return { ...shown, cohort: cohort.name, title: paper.title, isSet: paper.set !== null, invented: cohort.invented };
		},

		/** Begins to watch a paper that the session was found to be let in to; from then on that is looked at with every look. @returns what ends it */
		watch: (paperId: string, watcher: Watcher): (() => void) => tickerOf(paperId).watch(watcher),

		/** How many watch, all papers together. */
		watchers: (): number => [...tickers.values()].reduce((sum, one) => sum + one.watchers, 0),

		/**
		 * Ends somebody's sitting before its time; also one that runs on in a cohort archived since. What was done in it counts.
		 * @param wanted  `sitting` and `reason` of the form, unchecked
		 * @param now [ms since 1970]
		 */
		close(assessorId: string, cohortId: string, paperId: string, wanted: WantedClosed, now = Date.now()): Closed {
			const sittingId = String(wanted.sitting);
			const own = paperOf(db, assessorId, cohortId, paperId);
			const ofPaper = and(eq(sitting.id, sittingId), eq(sitting.paper, paperId));
			if (!own || !db.select({ id: sitting.id }).from(sitting).where(ofPaper).get()) return missing;
			const says = unchangeable(own.cohort, true);
			if (says !== null) return conflict(says);
			const why = reasonOf('A reason').safeParse(wanted.reason);
			if (!why.success) return refused(why.error.issues[0]!.message);
			closeSitting(db, sittingId, 'assessor', now, { assessor: assessorId, reason: why.data });
			tickerOf(paperId).forget();
			return { outcome: 'closed' };
		}
	};
}

export type LiveViews = ReturnType<typeof liveIn>;
let service: LiveViews | undefined;
/** The live views of this process's database. */
export function liveViews(): LiveViews {
	service ??= liveIn(database(), followedCallout);
	return service;
}
