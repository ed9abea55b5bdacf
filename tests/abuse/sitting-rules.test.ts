import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { action, attempt, drill } from '$lib/server/database/schema.ts';
import { signIn } from '../signed-in.ts';
import { makeDataFolder, removeFolder } from '../test-data.ts';
import { Visitor } from '../visitor.ts';
import {
	act,
	begin,
	closeRoom,
	eventsAt,
	firstDifference,
	goTo,
	steady,
	leadsTo,
	openRoom,
	runOut,
	sittingAt,
	type Room
} from './sitting-room.ts';

const folder = makeDataFolder();
let room: Room;
beforeAll(async () => {
	room = await openRoom(folder, ['Ada', 'Bea', 'Cid', 'Dot'], { attempts: 1 });
});
afterAll(async () => {
	await closeRoom(room);
	removeFolder(folder);
});

const demand = { kind: 'demand', demand: 'tap' };
const counts = () => [action, attempt, drill].map((table) => room.db.select().from(table).all().length);

describe('a second place', () => {
	it('is refused by every page and action with the way to carry on, and writes nothing but that it was tried', async () => {
		const { id, visitor } = room.people[0]!;
		const sitting = await begin(room, visitor);
		const callout = await goTo(visitor, sitting, 0);
		const drillPath = await goTo(visitor, sitting, 2);
		const second = signIn(room.db, new Visitor(room.server.address), id);
		const before = counts();
		const page = await second.get(sitting);
		expect(page.body).toContain('is being sat in another place');
		expect(page.body).toContain('Carry on here');
		for (const path of [callout, drillPath, `${callout}/debrief`]) expect(leadsTo(await second.get(path)), path).toBe(sitting);
		expect(leadsTo(await act(second, callout, 0, demand))).toBe(sitting);
		expect(leadsTo(await second.post(`${drillPath}?/answer`, { written: '4' }))).toBe(sitting);
		expect(leadsTo(await second.post(`${sitting}?/go`, { slot: '1' }))).toBe(sitting);
		expect(leadsTo(await second.post(`${sitting}?/handIn`, { sure: 'yes' }))).toBe(sitting);
		expect(counts()).toEqual(before);
		expect(sittingAt(room, sitting).ended).toBeNull();
		expect(eventsAt(room, sitting)).toEqual(['began', 'second-seat']);

		expect(leadsTo(await second.post(`${sitting}?/seat`, {}))).toBe(sitting);
		expect((await act(second, callout, 0, demand)).headers).toContain(`location: ${callout}`);
		expect(leadsTo(await act(visitor, callout, 1, { kind: 'demand', demand: 'none' }))).toBe(sitting);
		expect((await visitor.get(sitting)).body).toContain('Carry on here');
		expect(eventsAt(room, sitting)).toEqual(['began', 'second-seat', 'took-seat']);
		expect(counts()[0]).toBe(before[0]! + 1);
	});

	it('is not another tab of the same browser', async () => {
		const { visitor } = room.people[1]!;
		const sitting = await begin(room, visitor);
		const tab = new Visitor(room.server.address);
		for (const [name, value] of visitor.cookies) tab.cookies.set(name, value);
		const callout = await goTo(tab, sitting, 0);
		expect((await act(visitor, callout, 0, demand)).headers).toContain(`location: ${callout}`);
		expect(eventsAt(room, sitting)).toEqual(['began']);
	});
});

describe('after the deadline', () => {
	it('nothing is stored, whatever is sent', async () => {
		const { visitor } = room.people[2]!;
		const sitting = await begin(room, visitor);
		const callout = await goTo(visitor, sitting, 0);
		const drillPath = await goTo(visitor, sitting, 2);
		expect((await act(visitor, callout, 0, demand)).headers).toContain(`location: ${callout}`);
		const before = counts();
		runOut(room, sitting);
		expect(leadsTo(await act(visitor, callout, 1, { kind: 'leave' }))).toBe(sitting);
		expect(leadsTo(await visitor.post(`${drillPath}?/answer`, { written: '4' }))).toBe(sitting);
		expect(leadsTo(await visitor.post(`${sitting}?/go`, { slot: '1' }))).toBe(sitting);
		expect(counts()).toEqual(before);
		expect(
			room.db
				.select()
				.from(drill)
				.all()
				.every(({ answer }) => answer === null)
		).toBe(true);
		for (const path of [callout, drillPath]) expect(leadsTo(await visitor.get(path))).toBe(sitting);
		expect(sittingAt(room, sitting).endedBy).toBe('time');
		const again = await visitor.post(`/papers/${room.paper}?/begin`, {});
		expect([again.status, again.body]).toEqual([409, expect.stringContaining('no attempt at this paper left')]);
	});

	it('it is closed by itself, with nobody asking', async () => {
		const { visitor } = room.people[3]!;
		const sitting = await begin(room, visitor);
		runOut(room, sitting);
		while (sittingAt(room, sitting).ended === null) await wait(100);
		expect(eventsAt(room, sitting)).toEqual(['began', 'time']);
	});
});

it('another learner’s sitting is as if there were none', async () => {
	const [ada, bea] = room.people;
	const sitting = await begin(room, ada!.visitor);
	const callout = await goTo(signIn(room.db, new Visitor(room.server.address), ada!.id), sitting, 0);
	expect(callout).toBe(sitting);
	const one = room.db
		.select()
		.from(attempt)
		.all()
		.find(({ learner }) => learner === ada!.id)!;
	const before = counts();
	const like = async (path: string, none: string) => {
		const [theirs, nobodys] = [await bea!.visitor.get(path), await bea!.visitor.get(none)];
		expect([theirs.status, nobodys.status]).toEqual([404, 404]);
		const told = (body: string, asked: string) => steady(body.replaceAll(asked.split('/')[2]!, ''));
		expect(firstDifference(told(theirs.body, path), told(nobodys.body, none))).toBeNull();
	};
	await like(sitting, `/sitting/${'x'.repeat(22)}`);
	await like(`/callout/${one.id}`, `/callout/${'x'.repeat(22)}`);
	await like(`/callout/${one.id}/debrief`, `/callout/${'x'.repeat(22)}/debrief`);
	for (const what of ['go', 'seat', 'handIn']) {
		expect((await bea!.visitor.post(`${sitting}?/${what}`, { slot: '0', sure: 'yes' })).status, what).toBe(404);
	}
	expect((await act(bea!.visitor, `/callout/${one.id}`, 1, demand)).status).toBe(404);
	expect(counts()).toEqual(before);
	expect(sittingAt(room, sitting).ended).toBeNull();
});

it('takes broken forms for what they are', async () => {
	const { visitor } = room.people[1]!;
	const sitting = await begin(room, visitor);
	expect((await visitor.post(`${sitting}?/go`, { slot: '99' })).status).toBe(404);
	expect((await visitor.send(`${sitting}?/go`, '{}', 'application/json')).status).toBeGreaterThanOrEqual(400);
	// Without the second asking nothing is handed in.
	expect(leadsTo(await visitor.post(`${sitting}?/handIn`, {}))).toBe(`${sitting}?hand-in`);
	expect((await visitor.get(`${sitting}?hand-in`)).body).toContain('Untried');
	expect(sittingAt(room, sitting).ended).toBeNull();
	expect((await visitor.post(`/papers/none?/begin`, {})).status).toBe(404);
	expect((await visitor.get('/papers/none')).status).toBe(404);
});
