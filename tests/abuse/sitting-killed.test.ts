import { setTimeout as wait } from 'node:timers/promises';
import { eq } from 'drizzle-orm';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { action } from '$lib/server/database/schema.ts';
import { runServer } from '../running-server.ts';
import { makeDataFolder, removeFolder } from '../test-data.ts';
import { act, begin, closeRoom, eventsAt, goTo, openRoom, runOut, sittingAt, type Room } from './sitting-room.ts';

const folder = makeDataFolder();
let room: Room;
beforeAll(async () => {
	room = await openRoom(folder, ['Ada', 'Bea']);
});
afterAll(async () => {
	await closeRoom(room);
	removeFolder(folder);
});

async function killAndStartAgain(whileDown: () => void = () => undefined): Promise<void> {
	expect(await room.server.end('SIGKILL')).toBeNull();
	whileDown();
	room.server = await runServer(folder);
	for (const { visitor } of room.people) visitor.address = room.server.address;
}

it('goes on where it was after the server is killed in the middle: sitting, clock, seat and every answered action', async () => {
	const { visitor } = room.people[0]!;
	const sitting = await begin(room, visitor);
	const before = sittingAt(room, sitting);
	const callout = await goTo(visitor, sitting, 0);
	const doing = (seq: number) => act(visitor, callout, seq, { kind: 'demand', demand: seq % 2 === 0 ? 'tap' : 'none' });
	let answered = 0;
	const stream = (async () => {
		for (;;) {
			expect((await doing(answered)).status).toBe(303);
			answered++;
		}
	})().catch((error: Error) => error);
	while (answered < 7) await wait(1);
	await killAndStartAgain();
	// The connection broke; no action was turned away.
	expect(await stream).toBeInstanceOf(TypeError);
	const actions = () =>
		room.db
			.select()
			.from(action)
			.where(eq(action.attempt, callout.split('/').at(-1)!))
			.all().length;
	const stored = actions();
	expect([answered, answered + 1]).toContain(stored);
	expect(sittingAt(room, sitting)).toMatchObject({ deadline: before.deadline, started: before.started, seat: before.seat, ended: null });
	expect((await visitor.get(callout)).status).toBe(200);
	expect((await doing(stored)).status).toBe(303);
	expect(actions()).toBe(stored + 1);
	expect((await visitor.get(sitting)).body).toContain('Begun');
	expect(await begin(room, visitor)).toBe(sitting);
	expect(eventsAt(room, sitting)).toEqual(['began']);
});

it('is closed at its own deadline when that passes while the server is down, and marked', async () => {
	const { visitor } = room.people[1]!;
	const sitting = await begin(room, visitor);
	await goTo(visitor, sitting, 2);
	const deadline = Date.now() - 60_000;
	await killAndStartAgain(() => runOut(room, sitting, deadline));
	expect(sittingAt(room, sitting)).toMatchObject({ ended: new Date(deadline), endedBy: 'time' });
	expect((await visitor.get(sitting)).body).toContain('Closed when the time was over');
	while (sittingAt(room, sitting).marked === null) await wait(50);
	expect(eventsAt(room, sitting)).toEqual(['began', 'time']);
});
