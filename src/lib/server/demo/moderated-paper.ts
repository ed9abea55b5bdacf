/** What two invented assessors did with the marks of the invented paper: changed two, agreed on one, and locked what nobody disputes. */
import { randomUUID } from 'node:crypto';
import { eq, inArray } from 'drizzle-orm';
import type { Database } from '../database/open.ts';
import { cohort, cohortAssessor, learner, outbox, paper } from '../database/schema.ts';
import { changeMark, lockAll, markSecond } from '../sheets/moderation.ts';
import { sheetsOf, type Sheet } from '../sheets/sheet.ts';
import { inventedAssessors } from './centre.ts';

/** Marks that moderation gives back. */
const given = 2;

/** To be called once, when all of its sittings are marked. @param now [ms since 1970] */
export function moderatePaper(db: Database, paperId: string, now: number): void {
	db.transaction(
		() => {
			const { cohort: cohortId } = db.select().from(paper).where(eq(paper.id, paperId)).get()!;
			const [first, second] = inventedAssessors.map((name) => keeper(db, cohortId, name, now));
			const at = { cohort: cohortId, paper: paperId };
			// Marks of an invented cohort are changed by nobody; these are part of what is invented.
			db.update(cohort).set({ invented: false }).where(eq(cohort.id, cohortId)).run();
			const [agreed, disputed] = sheetsOf(db, paperId).filter((sheet) => lowParts(sheet) !== null);
			for (const [sheet, agrees, note] of [
				[agreed, 'yes', 'Went through the path and agree.'],
				[disputed, 'no', 'The first reading did not bear that.']
			] as const) {
				const low = sheet && lowParts(sheet);
				if (!sheet || !low) continue;
				const one = { ...at, sitting: sheet.sitting.id };
				const reason = 'The job sheet named the reading that pointed to the part.';
				changeMark(db, first!, one, { slot: low.slot, criterion: 'parts', seen: 0, mark: String(low.got + given), reason }, now);
				markSecond(db, second!, one, { agrees, note }, now);
			}
			lockAll(db, first!, at, now);
			const sittings = sheetsOf(db, paperId).map(({ sitting }) => sitting.id);
			db.update(cohort).set({ invented: true }).where(eq(cohort.id, cohortId)).run();
			// And nothing is told of them.
			db.delete(outbox).where(inArray(outbox.sitting, sittings)).run();
		},
		{ behavior: 'immediate' }
	);
}

/** A callout on the sheet whose marks for parts leave room. */
function lowParts({ marks }: Sheet): { readonly slot: number; readonly got: number } | null {
	for (const { slot, byCriterion } of marks) {
		const parts = byCriterion?.parts;
		if (parts && parts.got + given <= parts.outOf) return { slot, got: parts.got };
	}
	return null;
}

function keeper(db: Database, cohortId: string, name: string, now: number): string {
	const [id, since] = [randomUUID(), new Date(now)];
	db.insert(learner).values({ id, name, guest: false, invented: true, role: 'assessor', created: since }).run();
	db.insert(cohortAssessor).values({ cohort: cohortId, assessor: id, since }).run();
	return id;
}
