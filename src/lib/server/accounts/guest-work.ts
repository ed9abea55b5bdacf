/** What a guest has done goes along when they sign in. */
import { and, desc, eq, isNull, ne, sql } from 'drizzle-orm';
import { database } from '../database/open.ts';
import { attempt, drill, learner, memory, review, round } from '../database/schema.ts';

/**
 * Moves a guest's work to an account and forgets the guest. What the log makes of the account's skills is dropped, since the log now holds
 * more: it is made anew when it is next asked for. Settings stay the account's own; the address of the guest's calendar leads to it where
 * it has none.
 * @param now  [ms since 1970]
 */
export function moveGuestWork(guestId: string, accountId: string, now: number): void {
	database().transaction(
		(inside) => {
			// It may have become an account while a password was looked at; an account is never taken apart.
			const isGuest = and(eq(learner.id, guestId), eq(learner.guest, true));
			const guest = inside.select({ calendar: learner.calendar }).from(learner).where(isGuest).get();
			if (!guest) return;
			for (const table of [attempt, drill, review, round]) {
				inside.update(table).set({ learner: accountId }).where(eq(table.learner, guestId)).run();
			}
			endAllButTheLatest(accountId, new Date(now));
			inside.delete(memory).where(eq(memory.learner, accountId)).run();
			inside.delete(learner).where(eq(learner.id, guestId)).run();
			const hasNone = and(eq(learner.id, accountId), isNull(learner.calendar));
			inside.update(learner).set({ calendar: guest.calendar }).where(hasNone).run();
		},
		{ behavior: 'immediate' }
	);
}

/** A learner has one open round at most, the one begun last: an older one would be neither shown nor shut. */
function endAllButTheLatest(learnerId: string, at: Date): void {
	const db = database();
	const own = eq(round.learner, learnerId);
	const latest = db
		.select({ id: round.id })
		.from(round)
		.where(own)
		.orderBy(desc(round.created), desc(sql`rowid`))
		.limit(1)
		.get();
	if (!latest) return;
	const older = and(own, isNull(round.ended), ne(round.id, latest.id));
	db.update(round).set({ ended: at }).where(older).run();
}
