/** A guest is known by a session alone: when the last is over, nobody can be that guest again, and what was kept goes. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { addLearner, forgetOldSessions, learnerOrGuest, signUp } from '$lib/server/accounts/index.ts';
import { closeDatabase, database } from '$lib/server/database/open.ts';
import { learner } from '$lib/server/database/schema.ts';
import { Browser } from '../arriving.ts';
import { freshFolder } from './fresh.ts';
import { countRows, fillAllTables, tablesOfPractice } from './someones-rows.ts';

beforeEach(() => vi.stubEnv('PROVEWELL_DATA', freshFolder()));
afterEach(closeDatabase);

it('guests whose sessions are all over go with all they hold; other guests, accounts and the invented stay', async () => {
	const db = database();
	const [gone, stays, account] = [new Browser(), new Browser(), new Browser()];
	const guest = await learnerOrGuest(await gone.arrive());
	const other = await learnerOrGuest(await stays.arrive());
	await signUp(await account.arrive(), { name: 'Ann', password: 'two short planks' });
	const own = (await account.learner())!;
	const invented = [addLearner({ guest: false, invented: true }), addLearner({ guest: true, invented: true })];
	const kept = [other, own, ...invented].map(({ id }) => id);
	for (const id of [guest.id, ...kept]) {
		db.$client.prepare('update learner set calendar = ? where id = ?').run(`calendar of ${id}`, id);
		fillAllTables(db, id, id);
	}
	db.$client.exec('delete from session where learner not in (select id from learner where not guest)');
	const browserStays = await learnerOrGuest(await stays.arrive());
	db.$client.prepare('update session set expires_at = 1 where learner = ?').run(own.id);
	await forgetOldSessions();

	const left = db.select({ id: learner.id }).from(learner).all();
	expect(left.map(({ id }) => id).toSorted()).toEqual([own.id, ...invented.map(({ id }) => id), browserStays.id].toSorted());
	// One row of each of the three who are left and held one.
	for (const table of tablesOfPractice(db).filter((one) => one !== 'learner' && one !== 'session'))
		expect(countRows(db)[table], table).toBe(3);
});

it('a guest with a session that is not over stays', async () => {
	const browser = new Browser();
	const guest = await learnerOrGuest(await browser.arrive());
	await forgetOldSessions();
	expect(await browser.learner()).toEqual(guest);
});
