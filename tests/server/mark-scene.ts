/** A paper that was sat, with the services that mark it, on a database file of its own. */
import { eq } from 'drizzle-orm';
import { onTestFinished } from 'vitest';
import { calloutsIn } from '$lib/server/callouts/callouts.ts';
import { openDatabase, type Database } from '$lib/server/database/open.ts';
import { member, sitting } from '$lib/server/database/schema.ts';
import { curriculum } from '$lib/server/packs/curriculum.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { practiceIn } from '$lib/server/practice/practice.ts';
import { markingIn } from '$lib/server/sheets/marking.ts';
import { sheetServiceIn } from '$lib/server/sheets/sheets.ts';
import { sittingPage, type SittingPage } from '$lib/server/sittings/sitting-page.ts';
import { sittingsIn } from '$lib/server/sittings/sittings.ts';
import { layPaper, sit, type Laid, type Sat } from '../sat.ts';
import { freshFolder } from './fresh.ts';

export interface Scene extends Laid {
	readonly db: Database;
	readonly marking: ReturnType<typeof markingIn>;
	readonly sheets: ReturnType<typeof sheetServiceIn>;
	readonly at: { readonly cohort: string; readonly paper: string };
	/** What the page of a sitting shows its own learner. @param now [ms since 1970] */
	readonly shown: (sittingId: string, now?: number) => SittingPage;
}

export function scene(choice: Parameters<typeof layPaper>[1] = {}): Scene {
	const db = openDatabase(freshFolder());
	onTestFinished(() => void db.$client.close());
	const laid = layPaper(db, choice);
	const marking = markingIn(db, packs());
	const callouts = calloutsIn(db, packs());
	const { standing } = sittingsIn({ db, callouts, practice: practiceIn(db, callouts, packs(), curriculum()) });
	const shown = (sittingId: string, now = Date.now()) => {
		const ofWhom = eq(member.id, sitting.member);
		const row = db.select({ learner: member.learner }).from(sitting).innerJoin(member, ofWhom).where(eq(sitting.id, sittingId)).get()!;
		return sittingPage(sittingId, { id: row.learner!, zone: 'UTC', seat: null }, now, db, standing, marking.unmarked);
	};
	const at = { cohort: laid.cohort, paper: laid.paper };
	return { db, marking, sheets: sheetServiceIn(db, packs(), marking), at, shown, ...laid };
}

/** One with a sitting that is marked. */
export async function marked(sat: Sat = {}, choice: Parameters<typeof layPaper>[1] = {}) {
	const one = scene(choice);
	const id = sit(one.db, one, sat);
	await one.marking.mark(id);
	return { ...one, id, at: { ...one.at, sitting: id } };
}
