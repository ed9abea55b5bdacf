/** The statistics of a paper that was sat: from marks after moderation, of first sittings, for its own assessor. */
import { eq } from 'drizzle-orm';
import { describe, expect, it } from 'vitest';
import { auditEntry, drill, markChange, sittingItem } from '$lib/server/database/schema.ts';
import { openDatabase, type Database } from '$lib/server/database/open.ts';
import { itemsFileIn, statisticsIn } from '$lib/server/statistics/statistics-page.ts';
import { onTestFinished } from 'vitest';
import { addAccount, drillItem, hourMs, joinCohort, makeCohort, makePaper, minuteMs } from '../papers.ts';
import { freshFolder } from './fresh.ts';
import { satBy } from './sat-papers.ts';

/** A paper of three drills in two variants, sat by so many, every other one with each variant. */
function sat(many: number) {
	const db = openDatabase(freshFolder());
	onTestFinished(() => void db.$client.close());
	const assessor = addAccount(db, 'Assessor', 'assessor');
	const cohort = makeCohort(db, { assessor });
	const variants = [0, 1].map((variant) => [0, 1, 2].map((slot) => drillItem(10 * variant + slot)));
	const paper = makePaper(db, { cohort, variants, closes: Date.now() - hourMs });
	const members = Array.from({ length: many }, (_, i) => joinCohort(db, cohort, null, { name: `Sitter ${i}` }));
	// The better a sitter, the more items are right; the first third get none.
	const right = (i: number) => [0, 1, 2].map((slot) => (3 * i) / many > slot + (slot === 1 ? 0.7 : 0.3));
	const sittings = members.map((member, i) => satBy(db, paper, member, right(i), { variant: 1 + (i % 2) }));
	return {
		db,
		paper,
		members,
		sittings,
		at: { assessor, cohort, paper },
		page: () => statisticsIn(db, { assessor, cohort, paper }, Date.now())!
	};
}

const lines = (db: Database, at: Parameters<typeof itemsFileIn>[1]) => itemsFileIn(db, at, Date.now())!.trim().split('\r\n');

describe('statistics of a paper', () => {
	it('say facilities from ten sitters and correlations in grey below thirty, alpha always', () => {
		const few = sat(9).page();
		expect(few.figures.items.every(({ facility }) => facility.value === null && facility.why.includes('10'))).toBe(true);
		expect(few.figures.reliability.value!.interval).not.toBeNull();
		const some = sat(29).page();
		expect(some.figures.items.every(({ facility, discrimination }) => facility.value !== null && discrimination.value!.greyed)).toBe(true);
		expect(
			sat(30)
				.page()
				.figures.items.some(({ discrimination }) => discrimination.value!.greyed)
		).toBe(false);
	});

	it('are of marks after moderation', () => {
		const { db, sittings, page } = sat(12);
		const before = page().figures.items[2]!.facility.value!.share!;
		db.insert(markChange)
			.values({ sitting: sittings[0]!, slot: 2, criterion: null, before: 0, after: 10, reason: 'said rightly', by: 'x', at: new Date() })
			.run();
		expect(page().figures.items[2]!.facility.value!.share! - before).toBeCloseTo(1 / 12, 10);
	});

	it('leave out a learner’s further sittings, and say so', () => {
		const { db, paper, members, page } = sat(12);
		satBy(db, paper, members[0]!, [true, true, true], { number: 2 });
		expect(page()).toMatchObject({ again: 1, figures: { sitters: 12 } });
	});

	it('set variants beside each other from ten sitters, and equate none below fifty sitters, with why', () => {
		const { variants, equated } = sat(24).page();
		expect(variants.map(({ sitters }) => sitters)).toEqual([12, 12]);
		expect(variants[0]!.fromOthers.value!.difference).toBeCloseTo(-variants[1]!.fromOthers.value!.difference, 10);
		expect(equated).toMatchObject([{ number: 2, onto: 1, line: { value: null, why: expect.stringContaining('50') }, at: [] }]);
		expect(sat(18).page().variants[0]!.fromOthers).toEqual({ value: null, why: expect.stringContaining('10 sitters') });
	});

	it('equate from fifty sitters on each, at the mean and at the pass mark, with the error of it', () => {
		const { variants, equated, passMark, figures } = sat(104).page();
		expect(variants.map(({ sitters }) => sitters)).toEqual([52, 52]);
		const [{ line, at }] = equated as [(typeof equated)[number]];
		const { x, y, slope, intercept } = line.value!;
		const [mean, pass] = at as [(typeof at)[number], (typeof at)[number]];
		expect(mean).toMatchObject({ of: 'mean', total: x.mean, worth: expect.closeTo(y.mean, 9) });
		expect(mean.standardError).toBeCloseTo(y.sd * Math.sqrt(2 / 52), 9);
		expect(pass).toMatchObject({ of: 'pass mark', total: (passMark * figures.outOf) / 100 });
		expect(pass.worth).toBeCloseTo(slope * pass.total + intercept, 9);
		expect(pass.standardError).toBeGreaterThan(mean.standardError);
	});

	it('time each item by the sitter’s own clock', () => {
		const { db, sittings, page } = sat(3);
		const learner = addAccount(db, 'Somebody');
		for (const [i, minutes] of [1, 2, 4].entries()) {
			const created = new Date(Date.now() - hourMs);
			const answered = new Date(created.getTime() + minutes * minuteMs);
			const row = { id: `drill-${i}`, learner, generator: 'x', seed: 1, created, answer: '{}', answered };
			db.insert(drill).values(row).run();
			db.insert(sittingItem).values({ sitting: sittings[i]!, slot: 1, drill: row.id }).run();
		}
		expect(page().times).toMatchObject([{ begun: 0, median: null }, { begun: 3, median: 2 }, { begun: 0 }]);
	});

	it('are a file as well, which the audit trail knows of', () => {
		const { db, at } = sat(30);
		const [header, ...rows] = lines(db, at);
		expect(header!.split(',')).toHaveLength(17);
		expect(rows).toHaveLength(3);
		expect(rows[0]).toMatch(/^1,Sums of water,10,30,0\.\d+/);
		const [entry] = db.select().from(auditEntry).where(eq(auditEntry.subject, at.paper)).all();
		expect(entry).toMatchObject({ kind: 'exported', by: at.assessor, content: JSON.stringify({ file: 'items', rows: 3 }) });
	});

	it('are for the cohort’s own assessor, of a paper that was set', () => {
		const { db, at } = sat(2);
		const other = addAccount(db, 'Another', 'assessor');
		expect(statisticsIn(db, { ...at, assessor: other }, Date.now())).toBeNull();
		expect(itemsFileIn(db, { ...at, assessor: other }, Date.now())).toBeNull();
		const draft = makePaper(db, { cohort: at.cohort, set: null });
		expect(statisticsIn(db, { ...at, paper: draft }, Date.now())).toBeNull();
	});
});
