import { copyFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Driver from 'better-sqlite3';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { appendAudit, auditOf, beginning, reasonsOf, verifyAudit, type Entry } from '$lib/server/audit/audit.ts';
import { openDatabase, type Database } from '$lib/server/database/open.ts';
import { auditEntry, auditReason } from '$lib/server/database/schema.ts';
import { digestOf } from '$lib/server/digest.ts';
import { freshFolder } from './fresh.ts';
import { typed } from './terminal.ts';

const entry = (number: number): Entry => ({
	at: 1_790_000_000_000 + number,
	by: number % 2 ? 'an assessor' : null,
	cohort: 'a cohort',
	kind: 'cohort-renamed',
	subject: `sitting ${number % 3}`,
	content: { number }
});

/** The last row again, with another number and kind. */
const anew = (seq: string) => `select ${seq}, at, by, cohort, 'x', subject, content, previous, hash from audit_entry where seq = 3`;

/** A data folder with a trail of so many rows, closed. */
function trail(rows: number): string {
	const folder = freshFolder();
	const db = openDatabase(folder);
	for (let number = 1; number <= rows; number++) appendAudit(db, entry(number));
	db.$client.close();
	return folder;
}

function opened(folder: string): Database {
	const db = openDatabase(folder);
	onTestFinished(() => void db.$client.close());
	return db;
}

/** A copy of the folder's file in which something was done by hand, with the triggers out of the way. */
function tampered(folder: string, sql: string): string {
	const copy = freshFolder();
	copyFileSync(join(folder, 'provewell.sqlite'), join(copy, 'provewell.sqlite'));
	const client = new Driver(join(copy, 'provewell.sqlite'));
	client.exec(`drop trigger audit_entry_stays; drop trigger audit_entry_is_kept; drop trigger audit_entry_follows; ${sql}`);
	client.close();
	return copy;
}

async function audited(folder: string, more = '') {
	vi.stubEnv('PROVEWELL_DATA', folder);
	onTestFinished(() => void vi.unstubAllEnvs());
	return typed(`audit ${more}`);
}

describe('the trail', () => {
	it('numbers its rows without gaps, each on top of the one before, and finds those of one subject', () => {
		const db = opened(trail(7));
		const audit = verifyAudit(db);
		expect(audit).toMatchObject({ outcome: 'whole', rows: 7, head: expect.stringMatching(/^[0-9a-f]{64}$/) });
		expect(auditOf(db, 'sitting 1').map(({ seq }) => seq)).toEqual([1, 4, 7]);
		expect(auditOf(db, 'sitting 1')[0]!.previous).toBe(beginning);
	});

	it('is whole when empty, and over more rows than are read at a time', () => {
		expect(verifyAudit(opened(trail(0)))).toEqual({ outcome: 'whole', rows: 0, head: beginning });
		expect(verifyAudit(opened(trail(1201)))).toMatchObject({ outcome: 'whole', rows: 1201 });
	});

	it.each([
		['changed', "update audit_entry set kind = 'exported' where seq = 2", /never changed/],
		['shortened', 'delete from audit_entry where seq = 2', /never shortened/],
		['emptied', 'delete from audit_entry', /never shortened/],
		['written over', `insert or replace into audit_entry ${anew('3')}`, /only added to/],
		['added to in front', `insert into audit_entry ${anew('0')}`, /only added to/],
		['added to with a gap', `insert into audit_entry ${anew('7')}`, /only added to/]
	])('refuses in the database itself to be %s', (_, sql, says) => {
		const db = opened(trail(3));
		expect(() => db.$client.exec(sql)).toThrow(says);
		expect(verifyAudit(db)).toMatchObject({ outcome: 'whole', rows: 3 });
	});
});

describe('cli audit', () => {
	it('prints rows and head of a whole trail, and the same as JSON, with the code 0', async () => {
		const folder = trail(3);
		const plain = await audited(folder);
		expect(plain).toMatchObject({ code: 0, err: '' });
		expect(plain.out).toMatch(/^The audit trail is whole: 3 rows\.\nHead: [0-9a-f]{64}\n$/);
		const asJson = await audited(folder, '--json');
		expect(JSON.parse(asJson.out)).toEqual({ ...verifyAudit(opened(folder)), altered: [] });
	});

	it.each([
		['a changed content', 'update audit_entry set content = \'{"number":99}\' where seq = 3', 3],
		['a changed time', 'update audit_entry set at = at + 1 where seq = 2', 2],
		['another account', "update audit_entry set by = 'somebody else' where seq = 5", 5],
		['no account', 'update audit_entry set by = null where seq = 5', 5],
		['another cohort', "update audit_entry set cohort = 'another' where seq = 1", 1],
		['another kind', "update audit_entry set kind = 'exported' where seq = 4", 4],
		['another subject', "update audit_entry set subject = 'sitting 9' where seq = 4", 4],
		['a time that is none', "update audit_entry set at = 'noon' where seq = 4", 4],
		['a row taken out', 'delete from audit_entry where seq = 2', 2],
		[
			'a row taken out and the rest moved up',
			'delete from audit_entry where seq = 2; update audit_entry set seq = seq - 1 where seq > 2',
			2
		],
		['the first row taken out', 'delete from audit_entry where seq = 1', 1],
		[
			'a row put in between',
			'update audit_entry set seq = seq + 100 where seq > 2; update audit_entry set seq = seq - 99 where seq > 100; insert into audit_entry select 3, at, by, cohort, kind, subject, content, previous, hash from audit_entry where seq = 2',
			3
		],
		[
			'a row put in front',
			'insert into audit_entry select 0, at, by, cohort, kind, subject, content, previous, hash from audit_entry where seq = 1',
			0
		],
		[
			'a row put at the end',
			'insert into audit_entry select 6, at, by, cohort, kind, subject, content, hash, hash from audit_entry where seq = 5',
			6
		],
		['a hash made up', `update audit_entry set hash = '${'a'.repeat(64)}' where seq = 3`, 3]
	])('finds %s, says at which row, and ends with the code 1', async (_, sql, at) => {
		const folder = tampered(trail(5), sql);
		const plain = await audited(folder);
		expect(plain).toMatchObject({ code: 1, err: '', out: expect.stringContaining(`broken at row ${at}`) });
		const asJson = await audited(folder, '--json');
		expect(asJson.code).toBe(1);
		expect(JSON.parse(asJson.out)).toMatchObject({ outcome: 'broken', at });
	});

	it('misses rows taken off the end only where no head was kept from before', async () => {
		const folder = trail(5);
		const head = /Head: (\w+)/.exec((await audited(folder)).out)![1]!;
		const cut = tampered(folder, 'delete from audit_entry where seq = 5');
		expect(await audited(cut)).toMatchObject({ code: 0, out: expect.stringContaining('whole: 4 rows') });
		expect(await audited(cut, `--head ${head}`)).toMatchObject({ code: 1, out: expect.stringContaining('does not hold the head') });
		const db = opened(folder);
		appendAudit(db, entry(6));
		expect(await audited(folder, `--head ${head}`)).toMatchObject({ code: 0, out: expect.stringContaining('It holds the head') });
		expect(await audited(folder, '--head short')).toMatchObject({ code: 2 });
	});

	it('makes no file where there is none, and says of a file that is no database, in one line, what is wrong', async () => {
		const nowhere = join(freshFolder(), 'nowhere');
		expect(await audited(nowhere)).toMatchObject({ code: 1, out: '', err: expect.stringMatching(/no database at .*\n$/) });
		const torn = freshFolder();
		writeFileSync(join(torn, 'provewell.sqlite'), 'this is no database, though it has its name and is long enough to be taken for one');
		expect(await audited(torn)).toMatchObject({ code: 1, out: '', err: expect.stringMatching(/no audit trail that can be read/) });
	});

	it('reads beside a server that writes', async () => {
		const folder = trail(2);
		const db = opened(folder);
		db.$client.exec('begin immediate');
		appendAudit(db, entry(3));
		expect(await audited(folder)).toMatchObject({ code: 0, out: expect.stringContaining('2 rows') });
		db.$client.exec('commit');
		expect(await audited(folder)).toMatchObject({ code: 0, out: expect.stringContaining('3 rows') });
	});
});

it('holds of a reason its digest alone, and gives the words beside it only where they are those', () => {
	const db = opened(freshFolder());
	const words = 'Ruth Ashworth was ill';
	appendAudit(db, { ...entry(1), reason: words });
	appendAudit(db, entry(2));
	const rows = db.select().from(auditEntry).all();
	expect(JSON.stringify(rows)).not.toContain('Ashworth');
	expect(JSON.parse(rows[0]!.content)).toEqual({ number: 1, reason: digestOf(words) });
	expect([...reasonsOf(db, rows)]).toEqual([[1, words]]);
	db.update(auditReason).set({ text: 'Somebody was ill' }).run();
	expect([...reasonsOf(db, rows)]).toEqual([]);
	expect(verifyAudit(db)).toMatchObject({ outcome: 'whole', rows: 2 });
});
