/** The one browser session that sits. Another of the same learner's is refused until it takes the seat. */
import { and, eq, gt } from 'drizzle-orm';
import type { Database } from '../database/open.ts';
import { sitting, sittingEvent, type SittingRow } from '../database/schema.ts';

/** A page that is loaded again and again in a second place is one try. */
const sameTryMs = 60_000;
/** When the seat was last seen is kept to this. */
const seenEveryMs = 5_000;

/**
 * Whether this session sits; writes down that it was seen, or that a second place was tried.
 * @param seat  as `sessionIdOf` gives it
 * @param now   [ms since 1970]
 */
export function isSeated(db: Database, one: SittingRow, seat: string | null, now: number): boolean {
	if (seat === null || one.seat !== seat) {
		const at = new Date(now);
		const isSecond = and(eq(sittingEvent.sitting, one.id), eq(sittingEvent.kind, 'second-seat'));
		const just = and(isSecond, gt(sittingEvent.at, new Date(now - sameTryMs)));
		if (!db.select().from(sittingEvent).where(just).limit(1).get())
			db.insert(sittingEvent).values({ sitting: one.id, at, kind: 'second-seat' }).run();
		return false;
	}
	if (now - one.seen.getTime() >= seenEveryMs)
		db.update(sitting)
			.set({ seen: new Date(now) })
			.where(eq(sitting.id, one.id))
			.run();
	return true;
}

/** Makes this session the one that sits; what was done before is kept. @param now [ms since 1970] */
export function takeSeat(db: Database, one: SittingRow, seat: string, now: number): void {
	if (one.seat === seat || one.ended !== null) return;
	const at = new Date(now);
	db.transaction(
		(inside) => {
			inside.update(sitting).set({ seat, seen: at }).where(eq(sitting.id, one.id)).run();
			inside.insert(sittingEvent).values({ sitting: one.id, at, kind: 'took-seat' }).run();
		},
		{ behavior: 'immediate' }
	);
}
