/** Sittings: begun, gone through by the server's clock, closed. What the pages of a learner ask for, and what the rest of the server may. */
import { eq } from 'drizzle-orm';
import { callouts, type Callouts } from '../callouts/callouts.ts';
import { database, type Database } from '../database/open.ts';
import { member, paper, sitting, type MemberRow, type PaperRow, type SittingRow } from '../database/schema.ts';
import { done, missing, type Done, type Missing } from '../outcomes.ts';
import { practice, type Practice } from '../practice/practice.ts';
import { beginSitting, type Begun } from './begin-sitting.ts';
import { closeSitting, type Closing } from './closing.ts';
import { sittingItemsIn, type GoneTo, type SatItem } from './items.ts';
import { isReleased } from './release.ts';
import { isSeated, takeSeat } from './seat.ts';

export { beginSitting, type Begun } from './begin-sitting.ts';
export { closeOverdue, closeSitting, type ClosedBy } from './closing.ts';

/** Who asks: a learner, in one session. */
export interface Sitter {
	readonly learner: string;
	/** As `sessionIdOf` gives it. */
	readonly seat: string | null;
}

/** A sitting with all that it is of. */
export interface Sat {
	readonly sitting: SittingRow;
	readonly paper: PaperRow;
	readonly member: MemberRow;
}

/** How a sitting stands for whoever asks. */
export type Standing =
	| ({ readonly outcome: 'running'; readonly items: readonly SatItem[] } & Sat)
	/** It runs in another session of the same learner. */
	| ({ readonly outcome: 'elsewhere' } & Sat)
	| ({ readonly outcome: 'closed'; readonly items: readonly SatItem[]; readonly isReleased: boolean } & Sat)
	/** Nobody's, or somebody else's. */
	| Missing;

export type HandedIn = Done | { readonly outcome: 'elsewhere' } | Missing;

export interface SittingParts {
	readonly db: Database;
	readonly callouts: Callouts;
	readonly practice: Pick<Practice, 'drills' | 'plans'>;
	readonly closing?: Closing;
}

export type Sittings = ReturnType<typeof sittingsIn>;

export function sittingsIn({ db, closing, ...parts }: SittingParts) {
	const items = sittingItemsIn({ db, ...parts });

	/** A learner's own sitting, closed by now where its time is over. */
	function own(sittingId: string, learner: string, now: number): Sat | null {
		const look = () =>
			db
				.select({ sitting, paper, member })
				.from(sitting)
				.innerJoin(paper, eq(paper.id, sitting.paper))
				.innerJoin(member, eq(member.id, sitting.member))
				.where(eq(sitting.id, sittingId))
				.get();
		const found = look();
		if (found?.member.learner !== learner) return null;
		const isOverdue = found.sitting.ended === null && found.sitting.deadline.getTime() <= now;
		if (isOverdue) closeSitting(db, sittingId, 'time', now, closing);
		return isOverdue ? look()! : found;
	}

	return {
		/** How a sitting stands; writes down that it was asked for, and from where. @param now [ms since 1970] */
		standing(sittingId: string, { learner, seat }: Sitter, now: number): Standing {
			const found = own(sittingId, learner, now);
			if (!found) return missing;
			if (found.sitting.ended !== null) {
				const told = isReleased(found.paper, found.sitting, now);
				return { outcome: 'closed', items: items.of(found.sitting), isReleased: told, ...found };
			}
			if (!isSeated(db, found.sitting, seat, now)) return { outcome: 'elsewhere', ...found };
			return { outcome: 'running', items: items.of(found.sitting), ...found };
		},

		/** To an item; the first that is not done where none is named. @param now [ms since 1970] */
		async goTo(sittingId: string, who: Sitter, slot: number | null, now: number): Promise<GoneTo> {
			const found = this.standing(sittingId, who, now);
			if (found.outcome === 'missing') return missing;
			if (found.outcome !== 'running') return { outcome: 'closed' };
			const wanted = slot ?? found.items.find(({ state }) => state !== 'done')?.slot;
			return wanted === undefined ? missing : items.goTo(found.sitting, who.learner, wanted, now);
		},

		/** Makes the session that asks the one that sits. @returns whether there is such a sitting. @param now [ms since 1970] */
		takeSeat(sittingId: string, { learner, seat }: Sitter, now: number): boolean {
			const found = own(sittingId, learner, now);
			if (!found || seat === null) return false;
			takeSeat(db, found.sitting, seat, now);
			return true;
		},

		/** Hands the paper in: nothing can be done in it from then on. @param now [ms since 1970] */
		handIn(sittingId: string, who: Sitter, now: number): HandedIn {
			const found = this.standing(sittingId, who, now);
			if (found.outcome === 'missing' || found.outcome === 'elsewhere') return { outcome: found.outcome };
			closeSitting(db, sittingId, 'handed-in', now, closing);
			return done;
		}
	};
}

let service: Sittings | undefined;
/** The sittings of this process's database. */
export function sittings(): Sittings {
	service ??= sittingsIn({ db: database(), callouts: callouts(), practice: practice() });
	return service;
}

/** Begins a sitting of a paper in this process's database. */
export const beginPaper = (paperId: string, who: { learner: string; seat: string }, now = Date.now()): Begun =>
	beginSitting(database(), paperId, who, now);
export const standing: Sittings['standing'] = (...given) => sittings().standing(...given);
export const goToItem: Sittings['goTo'] = (...given) => sittings().goTo(...given);
export const carryOnHere: Sittings['takeSeat'] = (...given) => sittings().takeSeat(...given);
export const handIn: Sittings['handIn'] = (...given) => sittings().handIn(...given);
