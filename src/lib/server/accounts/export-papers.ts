/** Registers that a learner is on and papers that they sat, for the export. */
import { asc, eq } from 'drizzle-orm';
import { database } from '../database/open.ts';
import { cohort, member, paper, sitting, sittingItem } from '../database/schema.ts';
import { sheetOf } from '../sheets/sheet.ts';
import { isReleased } from '../sittings/release.ts';

/**
 * Each register with the sittings under it. Which variant it was, and what it came to, is told when the sitting may be told.
 * @param now [ms since 1970]
 */
export function* papersSat(learnerId: string, now: number): Generator<object> {
	const rows = database()
		.select({ member, cohort: cohort.name })
		.from(member)
		.innerJoin(cohort, eq(cohort.id, member.cohort))
		.where(eq(member.learner, learnerId))
		.orderBy(asc(member.created))
		.all();
	for (const { member: one, cohort } of rows) {
		const { name, reference, extraPercent, joined, left } = one;
		yield { cohort, name, reference, extraPercent, joined, left, sittings: sittingsOf(one.id, now) };
	}
}

function sittingsOf(memberId: string, now: number): object[] {
	const db = database();
	const rows = db
		.select({ sitting, paper })
		.from(sitting)
		.innerJoin(paper, eq(paper.id, sitting.paper))
		.where(eq(sitting.member, memberId))
		.orderBy(asc(sitting.started))
		.all();
	return rows.map(({ sitting: one, paper }) => {
		const { id, number, started, deadline, ended, endedBy, variant } = one;
		const items = db
			.select({ slot: sittingItem.slot, attempt: sittingItem.attempt, drill: sittingItem.drill })
			.from(sittingItem)
			.where(eq(sittingItem.sitting, id))
			.orderBy(asc(sittingItem.slot))
			.all();
		const sheet = isReleased(paper, one, now) ? sheetOf(db, id) : null;
		const told = sheet && { variant, outcome: sheet.outcome, marks: sheet.marks };
		return { paper: paper.title, mode: paper.mode, number, started, deadline, ended, endedBy, items, ...told };
	});
}
