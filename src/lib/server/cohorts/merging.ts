/** Two lines of a register that are one person: one was written by the assessor, and its person joined as a name of their own. */
import { and, eq } from 'drizzle-orm';
import { appendAudit } from '../audit/audit.ts';
import type { Database } from '../database/open.ts';
import { member, type MemberRow } from '../database/schema.ts';
import { conflict, done, missing, refused } from '../outcomes.ts';
import { moveDeadlines } from '../sittings/later-deadlines.ts';
import { change, type By, type Changed } from './changing.ts';
import { hasSat } from './register.ts';

/** Whether a line may go into another: nobody's account stands behind it, and nothing was sat under it. */
export const mayMerge = (db: Database, { id, learner, left }: Pick<MemberRow, 'id' | 'learner' | 'left'>): boolean =>
	learner === null && left === null && !hasSat(db, id);

/**
 * Puts a line into another: its reference goes to that, and its extra time where it is more; the line itself goes.
 * @param intoId  of the line that stays
 */
export function mergeLines(db: Database, by: By, lineId: string, intoId: string): Changed {
	return change(db, by, ({ id: cohort }) => {
		const of = (id: string) =>
			db
				.select()
				.from(member)
				.where(and(eq(member.id, id), eq(member.cohort, cohort)))
				.get();
		const [line, into] = [of(lineId), of(intoId)];
		if (!line) return missing;
		if (!into || into.left !== null || into.id === line.id) return refused('Choose the name on this register that is the same person.');
		if (!mayMerge(db, line)) return conflict('Somebody has joined or sat as this name, so it stays a line of its own.');
		if (line.reference !== null && into.reference !== null && line.reference !== into.reference)
			return conflict(`${into.name} has another reference, ${into.reference}. One person has one.`);
		const extraPercent = Math.max(line.extraPercent, into.extraPercent);
		db.delete(member).where(eq(member.id, line.id)).run();
		db.update(member)
			.set({ reference: line.reference ?? into.reference, extraPercent })
			.where(eq(member.id, into.id))
			.run();
		const content = { merged: line.id, takesReference: line.reference !== null, extra: { before: into.extraPercent, after: extraPercent } };
		appendAudit(db, { at: by.now, by: by.assessor, cohort, kind: 'member-merged', subject: into.id, content });
		moveDeadlines(db, { member: into.id }, by.assessor, by.now);
		return done;
	});
}
