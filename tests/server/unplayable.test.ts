import { eq } from 'drizzle-orm';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { calloutsIn } from '$lib/server/callouts/callouts.ts';
import { attemptsIn } from '$lib/server/database/attempts.ts';
import { openDatabase, type Database } from '$lib/server/database/open.ts';
import { action, attempt, pack as packTable } from '$lib/server/database/schema.ts';
import { packAsKept, packToKeep } from '$lib/server/packs/kept-packs.ts';
import { packs } from '$lib/server/packs/packs.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { guestOf } from '../guest.ts';
import { runServer, type RunningServer } from '../running-server.ts';
import { combi } from '../sampled.ts';
import { makeDataFolder, removeFolder } from '../test-data.ts';
import { begun, doSome, firstFamily, freshService } from './fresh.ts';

const unplayable = { outcome: 'unplayable', says: expect.stringMatching(/earlier version/) };

/** What may have become of an attempt since it was stored. */
const spoilt: [string, (db: Database, id: string) => unknown][] = [
	['an action of a kind no longer known', (db, id) => setAction(db, id, '{"kind":"whistle"}')],
	['an action on a check no longer there', (db, id) => setAction(db, id, '{"kind":"check","check":"no-such-check"}')],
	['an action that is no JSON', (db, id) => setAction(db, id, 'rubbish')],
	['a fault no longer there', (db, id) => db.update(attempt).set({ fault: 'no-such-fault' }).where(eq(attempt.id, id)).run()],
	['a pack of another shape', (db, id) => setPack(db, id, ({ checks, ...data }) => data)],
	[
		'a pack with a field of a rule missing',
		(db, id) => setPack(db, id, ({ rules: { weighing, ...rules }, ...data }) => ({ ...data, rules }))
	],
	['a pack whose figures are no longer these', (db, id) => setPack(db, id, (data) => ({ ...data, faults: data.faults.slice(1) }))],
	['a pack of a model that is gone', (db, id) => setPack(db, id, (data) => ({ ...data, family: { ...data.family, model: 'gone' } }))]
];

function setAction(db: Database, id: string, content: string): void {
	db.update(action).set({ content }).where(eq(action.attempt, id)).run();
}

/** The attempt's pack kept under an older hash with other content. */
function setPack(db: Database, id: string, change: (data: Pack) => unknown): void {
	const content = JSON.stringify(change(JSON.parse(packToKeep(combi)) as Pack));
	attemptsIn(db).keepPack({ hash: `of-old-${id}`, family: firstFamily(), content, created: new Date() });
	db.update(attempt)
		.set({ packHash: `of-old-${id}` })
		.where(eq(attempt.id, id))
		.run();
}

it.each(spoilt)('is said to be unplayable, by whatever is asked of it: %s', async (_, spoil) => {
	const { callouts, learnerId, again, db } = freshService();
	const { attemptId } = doSome(callouts, learnerId, begun(callouts, learnerId), 1);
	expect(again().find(attemptId, learnerId).outcome).toBe('standing');
	spoil(db, attemptId);
	const later = again();
	expect(later.find(attemptId, learnerId)).toEqual(unplayable);
	expect(later.load(attemptId, learnerId)).toBeNull();
	expect(later.act(attemptId, learnerId, { kind: 'demand', demand: 'tap' }, 1)).toEqual(unplayable);
	expect(await later.debrief(attemptId, learnerId)).toEqual(unplayable);
	expect(await later.soundBands(attemptId, learnerId)).toEqual([]);
	expect(later.find(attemptId, 'someone-else')).toEqual({ outcome: 'missing' });
});

it('makes a kept pack again only under the very hash it was kept under', () => {
	expect(packAsKept(packToKeep(combi), combi.hash)).toEqual(combi);
	expect(packAsKept(packToKeep(combi), 'another')).toBeNull();
	expect(packAsKept('rubbish', combi.hash)).toBeNull();
	expect(packAsKept('null', combi.hash)).toBeNull();
});

const folder = makeDataFolder();
let server: RunningServer;
beforeAll(async () => void (server = await runServer(folder)));
afterAll(async () => {
	await server.end();
	removeFolder(folder);
});

it('is listed with that sentence, and its pages answer 410, beside callouts that go on', async () => {
	const { visitor, learnerId } = await guestOf(folder, server.address);
	const db = openDatabase(folder);
	const callouts = calloutsIn(db, packs());
	const [old, running] = [begun(callouts, learnerId), begun(callouts, learnerId)].map((one) => doSome(callouts, learnerId, one, 1));
	setAction(db, old!.attemptId, '{"kind":"whistle"}');
	expect(db.select().from(packTable).all().length).toBeGreaterThan(0);
	db.$client.close();

	const list = await visitor.get('/callouts');
	expect(list.status).toBe(200);
	expect(list.body).toMatch(/cannot be played on/);
	expect(list.body).toContain(`href="/callout/${running!.attemptId}"`);
	expect(list.body).not.toContain(`href="/callout/${old!.attemptId}`);
	for (const path of [`/callout/${old!.attemptId}`, `/callout/${old!.attemptId}/debrief`]) {
		const { status, body } = await visitor.get(path);
		expect(status).toBe(410);
		expect(body).toMatch(/Of an earlier version\..*cannot be played on/s);
	}
	expect((await visitor.post(`/callout/${old!.attemptId}?/act`, { kind: 'demand', demand: 'tap', seq: '1' })).status).toBe(410);
	expect((await visitor.get(`/callout/${running!.attemptId}`)).status).toBe(200);
	expect(server.errors()).toBe('');
});
