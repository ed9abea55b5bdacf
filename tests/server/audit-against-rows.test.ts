import { copyFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Driver from 'better-sqlite3';
import { eq } from 'drizzle-orm';
import { beforeEach, describe, expect, it, onTestFinished, vi } from 'vitest';
import { appendAudit } from '$lib/server/audit/audit.ts';
import type { Database } from '$lib/server/database/open.ts';
import { auditEntry, cohort, markChange, paper } from '$lib/server/database/schema.ts';
import { termsOf } from '$lib/server/papers/kept-paper.ts';
import { lockSheet } from '$lib/server/sheets/moderation.ts';
import { freshFolder } from './fresh.ts';
import { marked, type Scene } from './mark-scene.ts';
import { typed } from './terminal.ts';

let one: Scene & { readonly id: string; readonly at: { readonly cohort: string; readonly paper: string; readonly sitting: string } };
let folder: string;

/** The row of the trail that told of it last. */
const rowOf = (db: Database, kind: string) =>
	db
		.select()
		.from(auditEntry)
		.all()
		.filter((row) => row.kind === kind)
		.at(-1)!.seq;

/** A paper set by the books, sat, marked, changed, looked at by a second marker and locked. */
beforeEach(async () => {
	one = await marked();
	folder = dirname(one.db.$client.name);
	const row = one.db.select().from(paper).where(eq(paper.id, one.paper)).get()!;
	appendAudit(one.db, {
		at: row.set!.getTime(),
		by: one.assessor,
		cohort: one.cohort,
		kind: 'paper-set',
		subject: one.paper,
		content: termsOf(one.db, row)
	});
	const wanted = { slot: '0', criterion: 'parts', seen: '0', mark: '12', reason: 'The note on it shows it' };
	expect(one.sheets.change(one.assessor, one.at, wanted)).toEqual({ outcome: 'done' });
	expect(one.sheets.second(one.colleague, one.at, { agrees: 'yes', note: 'Went through all of it' })).toEqual({ outcome: 'done' });
	expect(lockSheet(one.db, one.assessor, one.at, false)).toEqual({ outcome: 'done' });
});

/** What the command says of a copy of the file in which something was done by hand. */
async function auditedAfter(sql: string) {
	one.db.$client.pragma('wal_checkpoint(TRUNCATE)');
	const copy = freshFolder();
	copyFileSync(join(folder, 'provewell.sqlite'), join(copy, 'provewell.sqlite'));
	const client = new Driver(join(copy, 'provewell.sqlite'));
	client.exec(sql);
	client.close();
	vi.stubEnv('PROVEWELL_DATA', copy);
	onTestFinished(() => void vi.unstubAllEnvs());
	return { plain: await typed('audit'), asJson: await typed('audit --json') };
}

describe('cli audit', () => {
	it('finds nothing where everything is as it was told', async () => {
		const { plain, asJson } = await auditedAfter('');
		expect(plain).toMatchObject({ code: 0, err: '' });
		expect(JSON.parse(asJson.out)).toMatchObject({ outcome: 'whole', altered: [] });
	});

	it.each([
		['a mark as it was worked out', 'update item_mark set got = got + 5 where slot = 0', ['sitting-marked']],
		['what a mark is out of', 'update item_mark set out_of = 50 where slot = 0', ['sitting-marked']],
		[
			'the working of a mark',
			'update item_mark set content = replace(content, \'"got":\', \'"got":1\') where slot = 0',
			['sitting-marked']
		],
		['a mark that is gone', 'delete from item_mark where slot = 2', ['sitting-marked']],
		['a changed mark', 'update mark_change set after = 30', ['mark-changed', 'sheet-locked']],
		['a changed mark that is gone', 'delete from mark_change', ['mark-changed', 'sheet-locked']],
		['the reason of a changed mark', "update mark_change set reason = 'Another'", ['mark-changed']],
		['who changed a mark', "update mark_change set by = 'somebody'", ['mark-changed']],
		['what a second marker said', 'update second_marking set agrees = 0', ['second-marked']],
		['a lock that was taken off', 'update sitting set locked = null, locked_by = null', ['sheet-locked']],
		['who locked', "update sitting set locked_by = 'somebody'", ['sheet-locked']],
		['what it takes to pass', `update paper set pass_rule = '{"mark":1,"noDanger":false,"cured":0}'`, ['paper-set', 'sheet-locked']],
		['what it takes to pass, unreadable', "update paper set pass_rule = 'anything'", ['paper-set', 'sheet-locked']],
		[
			'what a paper asks for',
			'update paper set blueprint = \'{"lines":[{"kind":"drill","drill":"water-sums","count":1}]}\'',
			['paper-set']
		],
		[
			'what was in a variant',
			'update variant_item set content = replace(content, \'"seed":\', \'"seed":1\') where slot = 0',
			['paper-set']
		],
		['when a paper closed', 'update paper set closes = closes + 1000', ['paper-set']],
		['the sitting that is gone', 'delete from sitting', ['sitting-marked']]
	])('finds %s, says of which row, and ends with the code 1', async (_, sql, kinds) => {
		const { plain, asJson } = await auditedAfter(sql);
		const rows = kinds.map((kind) => rowOf(one.db, kind));
		expect(plain.code).toBe(1);
		expect(asJson.code).toBe(1);
		const { outcome, altered } = JSON.parse(asJson.out) as { outcome: string; altered: { row: number }[] };
		expect(outcome).toBe('whole');
		expect(altered.map(({ row }) => row)).toEqual(expect.arrayContaining(rows));
		for (const row of rows) expect(plain.out).toContain(`\nrow ${row}: `);
	});

	it('finds what no row tells of', async () => {
		const columns = 'sitting, slot, criterion, before, after, reason, by, at';
		const added = await auditedAfter(`insert into mark_change (${columns}) select ${columns} from mark_change`);
		expect(added.plain).toMatchObject({ code: 1, out: expect.stringContaining('no row: no row tells of a changed mark') });
		const second = await auditedAfter(
			`insert into paper select 'other', cohort, title, mode, blueprint, pass_rule, minutes, attempts, variant_count, opens, closes, created, created_by, "set" from paper`
		);
		expect(second.plain).toMatchObject({ code: 1, out: expect.stringContaining('no row: the paper other is set') });
	});

	it('goes along with what the trail tells later: another end of the window, another pass mark', async () => {
		const { closes, passRule } = one.db.select().from(paper).get()!;
		const [to, mark] = [new Date(closes!.getTime() + 5000), 41.5];
		one.db
			.update(paper)
			.set({ closes: to, passRule: JSON.stringify({ ...JSON.parse(passRule), mark }) })
			.run();
		const told = { at: Date.now(), by: one.assessor, cohort: one.cohort, subject: one.paper };
		appendAudit(one.db, { ...told, kind: 'window-changed', content: { from: closes, to }, reason: 'Power' });
		appendAudit(one.db, { ...told, kind: 'mark-taken', content: { before: 60, after: mark, judges: 3 }, reason: 'Judges' });
		const altered = async (sql: string) => (JSON.parse((await auditedAfter(sql)).asJson.out) as { altered: { row: number }[] }).altered;
		expect((await altered('')).filter(({ row }) => row !== rowOf(one.db, 'sheet-locked'))).toEqual([]);
		expect(await altered('update paper set closes = closes + 1')).toContainEqual(
			expect.objectContaining({ row: rowOf(one.db, 'window-changed') })
		);
		expect(await altered("update paper set pass_rule = replace(pass_rule, '41.5', '41')")).toContainEqual(
			expect.objectContaining({ row: rowOf(one.db, 'mark-taken') })
		);
	});

	it('knows that what was invented was cleared away, and that nothing else ever is', async () => {
		const gone = `delete from paper; delete from cohort`;
		expect((await auditedAfter(gone)).plain.code).toBe(1);
		appendAudit(one.db, { at: Date.now(), by: null, cohort: null, kind: 'demo-cleared', subject: 'demo', content: {} });
		expect((await auditedAfter(gone)).plain.code).toBe(0);
		appendAudit(one.db, { at: Date.now(), by: one.assessor, cohort: one.cohort, kind: 'cohort-made', subject: one.cohort, content: {} });
		expect((await auditedAfter(gone)).plain.code).toBe(1);
		expect(one.db.select().from(cohort).all()).toHaveLength(1);
		expect(one.db.select().from(markChange).all()).toHaveLength(1);
	});
});
