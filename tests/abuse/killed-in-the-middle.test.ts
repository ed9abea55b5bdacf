import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, expect, it } from 'vitest';
import type { Action } from '#shared/callout/action.ts';
import { calloutsIn } from '$lib/server/callouts/callouts.ts';
import { attemptsIn } from '$lib/server/database/attempts.ts';
import { openDatabase } from '$lib/server/database/open.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { formOf, guestOf } from '../guest.ts';
import { runServer, type RunningServer } from '../running-server.ts';
import { makeDataFolder, removeFolder } from '../test-data.ts';

const folder = makeDataFolder();
/** The server that one test leaves running is the one that the next kills. */
let running: RunningServer | undefined;
afterAll(async () => {
	await running?.end();
	removeFolder(folder);
});

/** Actions that can always be done, each unlike the one before. */
function actionNumber(seq: number): Action {
	return seq % 3 === 2 ? { kind: 'judge', still: [] } : { kind: 'demand', demand: seq % 3 === 0 ? 'tap' : 'none' };
}

// The moments differ, so that the kill falls now between two actions, now inside one.
it.each([
	[1, 0],
	[3, 2],
	[6, 5],
	[10, 9],
	[17, 14]
])('loses nothing that was answered when the server is killed after %i actions and %i ms', async (actions, furtherMs) => {
	const server = running ?? (await runServer(folder));
	running = undefined;
	const { visitor, learnerId } = await guestOf(folder, server.address);
	const [family] = packs().keys();
	const begin = openDatabase(folder);
	const started = calloutsIn(begin, packs()).start(learnerId, { family: family!, seed: 7 });
	begin.$client.close();
	if (started.outcome !== 'started') throw new Error(started.says);
	const path = `/callout/${started.attemptId}`;

	let answered = 0;
	const stream = (async () => {
		for (;;) {
			const { status } = await visitor.post(`${path}?/act`, formOf(actionNumber(answered), answered));
			expect(status).toBe(303);
			answered++;
		}
	})().catch((error: Error) => error);
	while (answered < actions) await wait(1);
	await wait(furtherMs);
	expect(await server.end('SIGKILL')).toBeNull();
	const broken = await stream;
	// The stream ends because the connection broke, not because an action was turned away.
	expect(broken).toBeInstanceOf(TypeError);

	const db = openDatabase(folder);
	const stored = attemptsIn(db)
		.actions(started.attemptId)
		.map(({ content }) => JSON.parse(content) as Action);
	const seen = calloutsIn(db, packs()).load(started.attemptId, learnerId)!;
	db.$client.close();
	expect(answered).toBeGreaterThanOrEqual(actions);
	expect([answered, answered + 1]).toContain(stored.length);
	expect(stored).toEqual(stored.map((_, seq) => actionNumber(seq)));
	expect(seen.seq).toBe(stored.length);

	running = await runServer(folder);
	visitor.address = running.address;
	expect((await visitor.get(path)).status).toBe(200);
	expect((await visitor.post(`${path}?/act`, formOf(actionNumber(stored.length), stored.length))).status).toBe(303);
});

it('ends cleanly after all of that', async () => {
	expect(await running!.end()).toBe(0);
	running = undefined;
});
