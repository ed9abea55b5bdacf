import { eq } from 'drizzle-orm';
import { expect, it } from 'vitest';
import { auditOf, verifyAudit } from '$lib/server/audit/audit.ts';
import { attempt, cohort, drill, learner, member, outbox, paper, review, sitting } from '$lib/server/database/schema.ts';
import { inventedCohorts, inventedPaper } from '$lib/server/demo/centre.ts';
import { clearDemo, seedDemo, sitDemoPaper } from '$lib/server/demo/demo.ts';
import { curriculum } from '$lib/server/packs/curriculum.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { drawSources } from '$lib/server/papers/papers.ts';
import { markingIn } from '$lib/server/sheets/marking.ts';
import { sheetOf } from '$lib/server/sheets/sheet.ts';
import { freshService } from './fresh.ts';

const now = Date.UTC(2026, 4, 20, 19);
const everyone = inventedCohorts.flatMap(({ names }) => names);

it('invents two cohorts with months of practice and a sat, marked paper, once, and takes all of it away for good', async () => {
	const { db, callouts, learnerId } = freshService();
	const parts = { db, callouts, known: packs(), curriculum: curriculum() };
	seedDemo(parts, 'full', now);
	seedDemo(parts, 'full', now);
	expect(
		db
			.select()
			.from(cohort)
			.all()
			.map(({ name, invented }) => ({ name, invented }))
	).toEqual(inventedCohorts.map(({ name }) => ({ name, invented: true })));
	expect(
		db
			.select()
			.from(member)
			.all()
			.map(({ name }) => name)
			.toSorted()
	).toEqual(everyone.toSorted());
	const log = db.select().from(review).all();
	for (const one of db.select().from(member).all()) {
		const own = log.filter((line) => line.learner === one.learner);
		expect(own.length).toBeGreaterThan(5);
		expect(Math.max(...own.map(({ at }) => at.getTime()))).toBeLessThan(now);
	}
	expect(new Set(log.map(({ recall }) => recall)).size).toBe(4);

	const marking = markingIn(db, packs());
	const closed: string[] = [];
	const mark = (id: string) => (closed.push(id), marking.mark(id, () => now));
	await sitDemoPaper(parts, drawSources(), mark, now);
	await sitDemoPaper(parts, drawSources(), mark, now);
	expect(closed).toHaveLength(inventedCohorts[0]!.names.length);
	const sheets = closed.map((id) => sheetOf(db, id)!);
	expect(new Set(sheets.map(({ outcome }) => outcome.passed))).toEqual(new Set([true, false]));
	expect(sheets.filter(({ state }) => state === 'locked').length).toBeGreaterThan(closed.length / 2);
	expect(sheets.filter(({ state }) => state === 'disputed')).toHaveLength(1);
	expect(db.select().from(outbox).all()).toEqual([]);
	const results = sheets.flatMap((sheet) => sheet.results);
	const callout = results.filter((result) => result.kind === 'callout');
	expect(callout).toHaveLength(2 * closed.length);
	expect(callout.some(({ cured }) => cured)).toBe(true);
	expect(new Set(callout.map(({ sheet }) => sheet.total)).size).toBeGreaterThan(2);
	const right = results.filter((result) => result.kind === 'drill').map((one) => one.right);
	expect(new Set(right)).toEqual(new Set([true, false]));
	expect(db.select().from(paper).get()?.title).toBe(inventedPaper.title);
	expect(auditOf(db, closed[0]!).map(({ kind }) => kind)).toContain('sitting-marked');

	clearDemo(db, now);
	seedDemo(parts, 'full', now);
	for (const table of [cohort, member, paper, sitting, attempt, drill, review]) expect(db.select().from(table).all()).toEqual([]);
	expect(db.select().from(learner).where(eq(learner.invented, true)).all()).toEqual([]);
	expect(db.select().from(learner).where(eq(learner.id, learnerId)).all()).toHaveLength(1);
	expect(verifyAudit(db).outcome).toBe('whole');
}, 180_000);
