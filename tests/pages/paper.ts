/** A paper that is set for whoever is signed in, for the page tests: written into the database of the server under test. */
import { openDatabase } from '$lib/server/database/open.ts';
import { learner, paper, sitting } from '$lib/server/database/schema.ts';
import { eq } from 'drizzle-orm';
import { joinCohort, makeCohort, makePaper, type PaperChoice } from '../papers.ts';

/** @returns the paper's id */
export function setPaper(account: string, choice: Partial<PaperChoice> = {}): string {
	const db = openDatabase(process.env.PROVEWELL_TEST_DATA!);
	try {
		const { id } = db.select().from(learner).where(eq(learner.name, account)).get()!;
		const cohort = makeCohort(db);
		joinCohort(db, cohort, id);
		return makePaper(db, { cohort, ...choice });
	} finally {
		db.$client.close();
	}
}

/** Lets the window of a paper be over. */
export function endWindow(id: string): void {
	const db = openDatabase(process.env.PROVEWELL_TEST_DATA!);
	db.update(paper)
		.set({ closes: new Date(Date.now() - 1) })
		.where(eq(paper.id, id))
		.run();
	db.$client.close();
}

/** Lets the time of every sitting of a paper be over. */
export function endTime(id: string): void {
	const db = openDatabase(process.env.PROVEWELL_TEST_DATA!);
	db.update(sitting)
		.set({ deadline: new Date(Date.now() - 1) })
		.where(eq(sitting.paper, id))
		.run();
	db.$client.close();
}
