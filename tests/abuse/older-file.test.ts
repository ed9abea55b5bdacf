/** A database file that an earlier version made is opened by this one: nothing in it is lost, and it is sound afterwards. */
import { readFileSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import Driver from 'better-sqlite3';
import { expect, it, onTestFinished } from 'vitest';
import { openDatabase, type Database } from '$lib/server/database/open.ts';
import { defaultRetention, defaultZone } from '#shared/review/memory/memory.ts';
import { freshFolder } from '../server/fresh.ts';

const migrations = join(import.meta.dirname, '../../migrations');

interface Entry {
	readonly tag: string;
	readonly when: number;
}
const { entries } = JSON.parse(readFileSync(join(migrations, 'meta/_journal.json'), 'utf8')) as { entries: Entry[] };

const rows: Readonly<Record<string, readonly Record<string, string | number | null>[]>> = {
	learner: [
		{ id: 'guest', guest: 1, invented: 0, created: 1_700_000_000_000 },
		{ id: 'invented', guest: 0, invented: 1, created: 1_700_000_000_001 }
	],
	session: [{ id: 'one', learner: 'guest', expires_at: 1_800_000_000 }],
	pack: [{ hash: 'abc', family: 'combi-plate-primary', content: '{}', created: 1_700_000_000_002 }],
	attempt: [
		{
			id: 'running',
			learner: 'guest',
			family: 'combi-plate-primary',
			pack_hash: 'abc',
			seed: 7,
			fault: null,
			created: 1_700_000_000_003,
			ended: null
		},
		{
			id: 'ended',
			learner: 'invented',
			family: 'combi-plate-primary',
			pack_hash: 'abc',
			seed: 2_147_483_647,
			fault: 'plate-scaled',
			created: 1_700_000_000_004,
			ended: 1_700_000_000_009
		}
	],
	action: [
		{ attempt: 'ended', seq: 0, kind: 'demand', content: '{"kind":"demand","demand":"tap"}', at: 1_700_000_000_005 },
		{ attempt: 'ended', seq: 1, kind: 'leave', content: '{"kind":"leave","told":[]}', at: 1_700_000_000_009 },
		{ attempt: 'running', seq: 0, kind: 'check', content: '{"kind":"check","check":"é"}', at: 1_700_000_000_006 }
	]
};

/** The file as it stood after the first migrations, made by their own statements and marked as the migrator marks it. */
function olderFile(folder: string, count: number): void {
	const client = new Driver(join(folder, 'provewell.sqlite'));
	client.pragma('journal_mode = WAL');
	client.exec('CREATE TABLE "__drizzle_migrations" (id SERIAL PRIMARY KEY, hash text NOT NULL, created_at numeric)');
	for (const { tag, when } of entries.slice(0, count)) {
		const text = readFileSync(join(migrations, `${tag}.sql`), 'utf8');
		for (const statement of text.split('--> statement-breakpoint')) client.exec(statement);
		const hash = createHash('sha256').update(text).digest('hex');
		client.prepare('insert into "__drizzle_migrations" (hash, created_at) values (?, ?)').run(hash, when);
	}
	for (const [table, all] of Object.entries(rows)) {
		for (const row of all) {
			const names = Object.keys(row);
			client
				.prepare(`insert into "${table}" (${names.map((name) => `"${name}"`).join()}) values (${names.map(() => '?').join()})`)
				.run(...Object.values(row));
		}
	}
	client.close();
}

function opened(folder: string): Database {
	const db = openDatabase(folder);
	onTestFinished(() => void db.$client.close());
	return db;
}

function expectWhole({ $client }: Database): void {
	expect($client.pragma('integrity_check')).toEqual([{ integrity_check: 'ok' }]);
	expect($client.pragma('foreign_key_check')).toEqual([]);
	expect($client.prepare('select count(*) from "__drizzle_migrations"').pluck().get()).toBe(entries.length);
	for (const [table, all] of Object.entries(rows)) {
		const found = $client.prepare(`select * from "${table}" order by rowid`).all();
		expect(found, table).toEqual(all.map((row) => expect.objectContaining(row)));
	}
}

const olders = entries.slice(0, -1).map(({ tag }, index) => [tag, index + 1] as const);

it.each(olders)('of after migration %s comes up to date with nothing lost, and opens again', (_, count) => {
	const folder = freshFolder();
	olderFile(folder, count);
	const db = opened(folder);
	expectWhole(db);
	// What is new is as for somebody who has chosen nothing.
	const added = db.$client.prepare('select zone, retention, role, name, password from learner').all();
	expect(added).toEqual(
		rows.learner!.map(() => ({ zone: defaultZone, retention: defaultRetention, role: 'learner', name: null, password: null }))
	);
	expect(db.$client.prepare('select drawn, reviewed from attempt').all()).toEqual(
		rows.attempt!.map(() => ({ drawn: null, reviewed: null }))
	);
	db.$client.close();
	expectWhole(opened(folder));
});

it('has the same tables, columns and indexes as a new one', () => {
	const [older, fresh] = [freshFolder(), freshFolder()];
	olderFile(older, 1);
	const shapeOf = ({ $client }: Database) =>
		$client.prepare("select type, name, sql from sqlite_master where name not like '__drizzle%' order by name").all();
	expect(shapeOf(opened(older))).toEqual(shapeOf(opened(fresh)));
});
