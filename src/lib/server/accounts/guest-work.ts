/** What a guest has done goes along when they sign in. */
import { and, eq } from 'drizzle-orm';
import { database } from '../database/open.ts';
import { attempt, drill, learner, memory, review, round } from '../database/schema.ts';

/**
 * Moves a guest's work to an account and forgets the guest. What the log makes of the account's skills is dropped, since the log now holds
 * more: it is made anew when it is next asked for.
 */
export function moveGuestWork(guestId: string, accountId: string): void {
	database().transaction(
		(inside) => {
			// It may have become an account while a password was looked at; an account is never taken apart.
			const isGuest = and(eq(learner.id, guestId), eq(learner.guest, true));
			if (!inside.select({ id: learner.id }).from(learner).where(isGuest).get()) return;
			for (const table of [attempt, drill, review, round]) {
				inside.update(table).set({ learner: accountId }).where(eq(table.learner, guestId)).run();
			}
			inside.delete(memory).where(eq(memory.learner, accountId)).run();
			inside.delete(learner).where(eq(learner.id, guestId)).run();
		},
		{ behavior: 'immediate' }
	);
}
