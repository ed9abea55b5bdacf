import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { deleteAccount, exportOf, learnerOrGuest, signIn, signUp } from '$lib/server/accounts/index.ts';
import { closeDatabase, database } from '$lib/server/database/open.ts';
import { Browser } from '../arriving.ts';
import { freshFolder } from '../server/fresh.ts';
import { countRows, fillAllTables, rowsOf, tablesIn, tablesOfLearners, tablesOfPractice } from '../server/someones-rows.ts';

const password = 'two short planks';
const done = { outcome: 'done' };
const noon = Date.UTC(2026, 0, 15, 12);

beforeEach(() => vi.stubEnv('PROVEWELL_DATA', freshFolder()));
afterEach(closeDatabase);

async function signedUp(name: string): Promise<Browser> {
	const browser = new Browser();
	expect(await signUp(await browser.arrive(), { name, password })).toEqual(done);
	return browser;
}

describe('everything of one learner', () => {
	it('goes with the account: no table keeps a row, and nobody else loses one', async () => {
		const db = database();
		const [ann, ben] = [await signedUp('Ann'), await signedUp('Ben')];
		expect(tablesOfPractice(db)).toEqual(
			expect.arrayContaining(['attempt', 'action', 'drill', 'review', 'memory', 'round', 'round_item', 'fit', 'session'])
		);
		fillAllTables(db, (await ben.learner())!.id, 'bens');
		await signIn(await new Browser().arrive(), { name: 'Ann', password: 'mistyped words' }, noon);
		const before = countRows(db);
		fillAllTables(db, (await ann.learner())!.id, 'anns');
		for (const table of tablesOfPractice(db).slice(1)) expect(countRows(db)[table], table).toBe(before[table]! + 1);
		expect(await deleteAccount(await ann.arrive(), { password, sure: 'yes' }, noon)).toEqual(done);
		const after = countRows(db);
		// Of Ben's, one of each; of Ann's, none, nor of those who tried her name. A pack is nobody's.
		for (const table of tablesOfPractice(db)) expect(after[table], table).toBe(table === 'session' ? 2 : 1);
		expect(after.failed_sign_in).toBe(1);
		const left = tablesIn(db).filter((table) => table !== 'pack');
		expect(JSON.stringify(left.map((table) => rowsOf(db, table)))).not.toMatch(/anns|"Ann"/i);
	});

	it('is in the export, and nothing of anybody else', async () => {
		const db = database();
		const [ann, ben] = [(await (await signedUp('Ann')).learner())!, (await (await signedUp('Ben')).learner())!];
		fillAllTables(db, ann.id, 'anns');
		fillAllTables(db, ben.id, 'bens');
		const own = [...exportOf(ann.id, {})].join('');
		expect(JSON.parse(own)).toMatchObject({ account: { name: 'Ann' } });
		expect(own).toContain('anns');
		expect(own).not.toMatch(/bens|"Ben"/);
		expect(own).not.toContain(ben.id);
		expect(own).not.toMatch(/argon2|password"|"calendar"/);
		// A table that is added is exported too, or is named here with the reason why not.
		const notTheirWork = ['session', 'learner'];
		const sections = {
			attempt: 'attempts',
			action: 'attempts',
			drill: 'drills',
			review: 'reviews',
			memory: 'skills',
			round: 'rounds',
			round_item: 'rounds',
			fit: 'fits'
		};
		// Of registers and papers: `accounts-with-papers.test.ts`. Of marks, what came of them; who keeps a cohort is no work of theirs.
		const ofPapers = [
			'cohort_assessor',
			'item_mark',
			'mark_change',
			'member',
			'second_marking',
			'sitting',
			'sitting_event',
			'sitting_item'
		];
		expect(
			tablesOfLearners(db)
				.filter((table) => !notTheirWork.includes(table))
				.toSorted()
		).toEqual([...Object.keys(sections), ...ofPapers].toSorted());
		for (const section of new Set(Object.values(sections))) expect(JSON.parse(own)[section], section).toHaveLength(1);
	});

	it('is not to be had for an id that is nobody', () => {
		expect([...exportOf('nobody', {})]).toEqual([]);
	});
});

describe('a guest who signs in', () => {
	it('brings every row of theirs along, table by table, and is gone', async () => {
		const db = database();
		const account = (await (await signedUp('Ann')).learner())!;
		fillAllTables(db, account.id, 'before');
		const browser = new Browser();
		const guest = await learnerOrGuest(await browser.arrive());
		fillAllTables(db, guest.id, 'guests');
		expect(await signIn(await browser.arrive(), { name: 'Ann', password })).toEqual(done);
		expect((await browser.learner())!.id).toBe(account.id);
		// What follows from the log is made anew from it; sessions are one browser's; a fit was to the guest's few reviews alone.
		const notMoved: Record<string, number> = { learner: 1, memory: 0, fit: 1 };
		const now = countRows(db);
		for (const table of tablesOfPractice(db).filter((one) => one !== 'session')) expect(now[table], table).toBe(notMoved[table] ?? 2);
		const text = JSON.stringify(tablesIn(db).map((table) => rowsOf(db, table)));
		expect(text).not.toContain(guest.id);
		expect(text.match(new RegExp(account.id, 'g'))!.length).toBeGreaterThan(5);
	});
});
