/** Deadlines of sittings that run are moved where a window is made longer or somebody is allowed more time: later, and never earlier. */
import { and, eq, gt, isNull } from 'drizzle-orm';
import { appendAudit } from '../audit/audit.ts';
import type { Database } from '../database/open.ts';
import { member, paper, sitting } from '../database/schema.ts';
import { deadlineOf } from './allowed.ts';

/**
 * Gives every sitting of a paper, or of a member, that still has time what paper and register allow it by now. What they allow less of
 * than when it began stays with it. To be called in the transaction that changed them.
 * @param now  [ms since 1970]
 */
export function moveDeadlines(db: Database, of: { readonly paper: string } | { readonly member: string }, by: string, now: number): void {
	const ofWhich = 'paper' in of ? eq(sitting.paper, of.paper) : eq(sitting.member, of.member);
	const running = db
		.select({ sitting, paper, member })
		.from(sitting)
		.innerJoin(paper, eq(paper.id, sitting.paper))
		.innerJoin(member, eq(member.id, sitting.member))
		.where(and(ofWhich, isNull(sitting.ended), gt(sitting.deadline, new Date(now))))
		.all();
	for (const one of running) {
		const { id, started, deadline: from } = one.sitting;
		const to = new Date(deadlineOf(one.paper, one.member, started.getTime()).at);
		if (to <= from) continue;
		db.update(sitting).set({ deadline: to }).where(eq(sitting.id, id)).run();
		appendAudit(db, { at: now, by, cohort: one.paper.cohort, kind: 'deadline-moved', subject: id, content: { from, to } });
	}
}
