/** Sittings come to their end: handed in, out of time, or closed by an assessor. */
import { and, eq, isNull, lte } from 'drizzle-orm';
import { appendAudit } from '../audit/audit.ts';
import type { Database } from '../database/open.ts';
import { member, paper, sitting, sittingEvent, type SittingRow } from '../database/schema.ts';
import { markSoon } from '../sheets/marking.ts';

export type ClosedBy = NonNullable<SittingRow['endedBy']>;

export interface Closing {
	/** The account of the assessor who closed it. */
	readonly assessor?: string;
	/** Why the assessor did. */
	readonly reason?: string;
	/** What has a closed sitting marked. */
	readonly mark?: (sittingId: string) => void;
}

/**
 * Closes a sitting, once; from then on nothing can be done in it, and it is marked in the background. What comes after the deadline ends it
 * by time, at the deadline, whoever asks.
 * @param now [ms since 1970]
 * @returns whether it was open
 */
export function closeSitting(
	db: Database,
	sittingId: string,
	by: ClosedBy,
	now: number,
	{ assessor, reason, mark = markSoon }: Closing = {}
): boolean {
	const closed = db.transaction(
		() => {
			const found = db
				.select({ sitting, cohort: paper.cohort, learner: member.learner })
				.from(sitting)
				.innerJoin(paper, eq(paper.id, sitting.paper))
				.innerJoin(member, eq(member.id, sitting.member))
				.where(and(eq(sitting.id, sittingId), isNull(sitting.ended)))
				.get();
			if (!found) return false;
			const deadline = found.sitting.deadline.getTime();
			const endedBy = deadline <= now ? 'time' : by;
			const ended = new Date(Math.min(now, deadline));
			db.update(sitting).set({ ended, endedBy }).where(eq(sitting.id, sittingId)).run();
			const kind = endedBy === 'assessor' ? 'closed-by-assessor' : endedBy;
			db.insert(sittingEvent).values({ sitting: sittingId, at: ended, kind }).run();
			appendAudit(db, {
				at: now,
				by: { 'handed-in': found.learner, time: null, assessor: assessor ?? null }[endedBy],
				cohort: found.cohort,
				kind: 'sitting-ended',
				subject: sittingId,
				content: { by: endedBy, ended: ended.toISOString() },
				reason: endedBy === 'assessor' ? reason : undefined
			});
			return true;
		},
		{ behavior: 'immediate' }
	);
	if (closed) mark(sittingId);
	return closed;
}

/** Closes every sitting whose time is over. @param now [ms since 1970] @returns how many */
export function closeOverdue(db: Database, now: number, closing: Closing = {}): number {
	const overdue = db
		.select({ id: sitting.id })
		.from(sitting)
		.where(and(isNull(sitting.ended), lte(sitting.deadline, new Date(now))))
		.all();
	return overdue.filter(({ id }) => closeSitting(db, id, 'time', now, closing)).length;
}
