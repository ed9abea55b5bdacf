/** Rows are found by an index wherever a learner waits for them, however many others have written. */
import { expect, it, onTestFinished, vi } from 'vitest';
import { openDatabase, type Database } from '$lib/server/database/open.ts';
import { reviewLogIn } from '$lib/server/database/review-log.ts';
import { closeOverdue } from '$lib/server/sittings/closing.ts';
import { freshFolder } from './fresh.ts';
import { tablesIn } from './someones-rows.ts';

function fresh(): Database {
	const db = openDatabase(freshFolder());
	onTestFinished(() => void db.$client.close());
	return db;
}

const planOf = ({ $client }: Database, text: string): string[] =>
	($client.prepare(`explain query plan ${text}`).all(...Array((text.match(/\?/g) ?? []).length).fill(0)) as { detail: string }[]).map(
		({ detail }) => detail
	);

it('every row that goes, or is changed, with another is found by an index that begins with what points at that', () => {
	const { $client: client, ...db } = fresh();
	const scanned = tablesIn({ ...db, $client: client } as Database).flatMap((table) => {
		const indexes = client.pragma(`index_list("${table}")`) as { name: string; partial: number }[];
		const firsts = indexes
			.filter(({ partial }) => partial === 0)
			.map(({ name }) => (client.pragma(`index_info("${name}")`) as { name: string }[])[0]!.name);
		const keys = client.pragma(`foreign_key_list("${table}")`) as { from: string; on_delete: string }[];
		// A pack is never deleted.
		return keys.filter(({ from, on_delete }) => on_delete !== 'NO ACTION' && !firsts.includes(from)).map(({ from }) => `${table}.${from}`);
	});
	expect(scanned).toEqual([]);
});

it('what of one learner is still to be reviewed is read from that learner alone, and of everyone from what is to be reviewed alone', () => {
	const db = fresh();
	const said: string[] = [];
	const prepare = vi.spyOn(db.$client, 'prepare');
	const log = reviewLogIn(db);
	prepare.mockClear();
	for (const whose of ['someone', undefined]) {
		log.unreviewed(Date.now(), whose);
		said.push(planOf(db, prepare.mock.calls.at(-1)![0]).find((detail) => /\battempt\b/.test(detail))!);
	}
	expect(said[0]).toMatch(/^SEARCH attempt USING INDEX attempt_(unreviewed|by_learner) \(learner=\?/);
	expect(said[1]).toMatch(/USING INDEX attempt_unreviewed\b/);
});

it('sittings whose time is over, which are looked for every few seconds, are found among those that run alone', () => {
	const db = fresh();
	const prepare = vi.spyOn(db.$client, 'prepare');
	closeOverdue(db, Date.now());
	const text = prepare.mock.calls.at(-1)![0];
	expect(planOf(db, text)).toEqual([expect.stringMatching(/^SEARCH sitting USING INDEX sitting_running \(deadline</)]);
});
