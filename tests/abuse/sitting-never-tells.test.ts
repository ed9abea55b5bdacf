/**
 * Two learners whose papers hide other faults behind the same complaint, and who do the same, must see the same everywhere until it is told.
 * What differs in every answer by who they are and what the clock says is made alike first.
 */
import { setTimeout as wait } from 'node:timers/promises';
import { eq } from 'drizzle-orm';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { access } from '$lib/server/accounts/access.ts';
import { drill, learner, sitting } from '$lib/server/database/schema.ts';
import { digestOf } from '$lib/server/digest.ts';
import type { CalloutItem } from '#shared/assessment/variant.ts';
import { makeCallout, NoComplaint } from '#shared/callout/make.ts';
import { generators } from '#shared/review/drills/index.ts';
import { calloutItem, drillItem, firstPack } from '../papers.ts';
import { makeDataFolder, removeFolder } from '../test-data.ts';
import {
	act,
	begin,
	closeRoom,
	endWindow,
	firstDifference,
	goTo,
	steady,
	leadsTo,
	openRoom,
	playedIn,
	sittingAt,
	type Room
} from './sitting-room.ts';

const folder = makeDataFolder();
const pack = firstPack();
const secondSeed = 1_987_650_011;
let room: Room;

/** Two faults of one seed of which the household says the same. */
function twins(from: number): [CalloutItem, CalloutItem] {
	for (let seed = from; ; seed++) {
		const bySaying = new Map<string, string>();
		for (const { id } of pack.faults) {
			try {
				const { complaintSays, household } = makeCallout(pack, seed, id);
				const said = `${complaintSays} ${household.says}`;
				const other = bySaying.get(said);
				const items = other && [calloutItem({ fault: other, seed }), calloutItem({ fault: id, seed })];
				if (items && items[0]!.area !== items[1]!.area) return items as [CalloutItem, CalloutItem];
				bySaying.set(said, id);
			} catch (error) {
				if (!(error instanceof NoComplaint)) throw error;
			}
		}
	}
}
const [first, second] = [twins(1_987_650_001), twins(secondSeed)];
const asked = drillItem(1_986_543_210);

beforeAll(async () => {
	const variants = [0, 1].map((index) => [first[index]!, second[index]!, asked]);
	room = await openRoom(folder, ['Ada Lightfoot', 'Bea Lightfoot'], { variants, title: 'A paper with secrets' });
	for (const [index, { id }] of room.people.entries())
		room.db
			.update(learner)
			.set({ calendar: digestOf(`calendar-of-${index}`) })
			.where(eq(learner.id, id))
			.run();
});
afterAll(async () => {
	await closeRoom(room);
	removeFolder(folder);
});

/** The right answer to the drill, and a wrong one. */
function answers(): [string, string] {
	const made = generators.find(({ id }) => id === asked.generator)!.make({ pack: null, table: null }, asked.seed);
	const judged = made.judge({ written: '1' }, 30);
	if ('refused' in judged) throw new Error(judged.refused);
	return [/[\d.]+/.exec(judged.answer[0]!)![0], '123456'];
}

/** Every route that can be looked at, with what is the learner's own in it; pages also as the data that scripts ask for. */
function everyAddress(index: number, paths: { sitting: string; played: readonly string[] }): string[] {
	const known: Record<string, readonly string[]> = {
		'/callout/[id]': paths.played.filter((one) => one.startsWith('/callout')),
		'/callout/[id]/debrief': paths.played.filter((one) => one.startsWith('/callout')).map((one) => `${one}/debrief`),
		'/drill/[id]': paths.played.filter((one) => one.startsWith('/drill')),
		'/sitting/[sitting]': [paths.sitting, `${paths.sitting}?hand-in`],
		'/papers/[paper]': [`/papers/${room.paper}`],
		'/calendar/[secret].ics': [`/calendar/calendar-of-${index}.ics`],
		'/progress/[file].csv': ['skills', 'reviews', 'callouts'].map((file) => `/progress/${file}.csv`),
		'/families/[family]': [`/families/${pack.family.id}`],
		'/refresher/[met]': [`/refresher/${pack.family.id}`]
	};
	const given: Record<string, string> = {
		cohort: room.cohort,
		paper: room.paper,
		sitting: paths.sitting.split('/').at(-1)!,
		member: room.people[index]!.member
	};
	const routes = Object.entries(access).filter(([, may]) => may.GET);
	const addresses = routes.flatMap(([route]) => known[route] ?? [route.replace(/\[(\w+)\]/g, (_, name: string) => given[name] ?? '1')]);
	const asData = (path: string) => {
		const [at, query] = path.split('?') as [string, string?];
		return `${at === '/' ? '' : at}/__data.json${query ? `?${query}` : ''}`;
	};
	return addresses.filter((one) => !one.includes('/events')).flatMap((one) => [one, asData(one)]);
}

const isFile = (path: string) => /\.(csv|ics)|export|health/.test(path);

/** What came back, with who it was for and when made alike. */
function alike(text: string, index: number, paths: { sitting: string; played: readonly string[] }): string {
	const own = [paths.sitting, ...paths.played].map((path) => path.split('/').at(-1)!);
	const { id, member } = room.people[index]!;
	let same = steady(text);
	for (const [at, word] of [...own, id, member, `calendar-of-${index}`].entries()) same = same.replaceAll(word, `OWN${at}`);
	return same
		.replaceAll(/Ada Lightfoot|Bea Lightfoot/g, 'NAME')
		.replaceAll(/"written":"[^"]*"/g, 'WRITTEN')
		.replaceAll(/\d{4}-\d\d-\d\dT[\d:.]+Z|\b\d{13}\b|\b\d\d:\d\d\b|\b\d{8}T\d{6}Z?/g, 'TIME')
		.replaceAll(/^(date|content-length|etag|last-modified): .*$/gm, '')
		.replaceAll(/[\w-]+\.[\w-]+\.(js|css)/g, 'FILE');
}

/** @returns what was asked for, so that a test sees that it was much */
async function sameEverywhere(paths: readonly { sitting: string; played: readonly string[] }[]): Promise<string[]> {
	const lists = paths.map((one, index) => everyAddress(index, one));
	const words = [...first, ...second].flatMap(({ fault, seed }) => {
		const { says, because } = pack.faults.find(({ id }) => id === fault)!;
		return { fault, seed: String(seed), says, because };
	});
	for (const [at, address] of lists[0]!.entries()) {
		const pages: string[] = [];
		for (const [index, { visitor }] of room.people.entries()) {
			const { status, headers, body } = await visitor.get(lists[index]![at]!);
			const told = `${status}\n${headers}\n${body}`;
			for (const { seed, because } of words) {
				expect(told.includes(seed), `seed at ${address}`).toBe(false);
				expect(told.includes(because), `why of the fault at ${address}`).toBe(false);
			}
			// The bench lists every fault there is, to be judged.
			if (!address.startsWith('/callout/'))
				for (const { fault, says } of words)
					for (const word of [fault, says]) expect(told.includes(word), `${word} at ${address}`).toBe(false);
			expect(status, address).toBeLessThan(500);
			pages.push(alike(told, index, paths[index]!));
		}
		expect(firstDifference(pages[0]!, pages[1]!), address).toBeNull();
	}
	return lists[0]!;
}

it('tells the two apart nowhere: not while it runs, not when items are done, not when it is handed in; and then tells', async () => {
	const paths: { sitting: string; played: string[] }[] = [];
	for (const { visitor } of room.people) {
		const path = await begin(room, visitor);
		const played = [];
		for (const slot of [0, 1, 2]) played.push(await goTo(visitor, path, slot));
		paths.push({ sitting: path, played });
	}
	const hidden = paths.map(({ sitting }) => playedIn(room, sitting).map(({ fault }) => fault));
	expect(hidden[0]![0]).not.toBe(hidden[1]![0]);
	const looked = await sameEverywhere(paths);
	expect(looked.length).toBeGreaterThan(60);
	expect(looked.filter(isFile).length).toBeGreaterThan(5);

	const said = answers();
	for (const [index, { visitor }] of room.people.entries()) {
		const [callout, , drillPath] = paths[index]!.played as [string, string, string];
		const left = await act(visitor, callout, 0, { kind: 'leave' });
		expect(leadsTo(left)).toBe(paths[index]!.sitting);
		expect(leadsTo(await visitor.post(`${drillPath}?/answer`, { written: said[index]! }))).toBe(drillPath);
	}
	expect(
		room.db
			.select()
			.from(drill)
			.all()
			.map(({ answer }) => answer !== null)
	).toEqual([true, true]);
	await sameEverywhere(paths);

	for (const [index, { visitor }] of room.people.entries()) await visitor.post(`${paths[index]!.sitting}?/handIn`, { sure: 'yes' });
	while (paths.some(({ sitting }) => sittingAt(room, sitting).marked === null)) await wait(100);
	// How long each took is known to the learner, and no secret.
	const { started, ended } = sittingAt(room, paths[0]!.sitting);
	room.db.update(sitting).set({ started, ended }).run();
	await sameEverywhere(paths);

	endWindow(room);
	const bodies = await Promise.all(
		room.people.map(async ({ visitor }, index) => {
			const result = await visitor.get(paths[index]!.sitting);
			expect(result.body).toMatch(/Marks per item/);
			const drillPage = await visitor.get(paths[index]!.played[2]!);
			expect(drillPage.body).toContain(index === 0 ? 'Right' : 'Not right');
			for (;;) {
				const { body } = await visitor.get(`${paths[index]!.played[0]!}/debrief`);
				if (body.includes('The bill')) return body;
				await wait(500);
			}
		})
	);
	for (const [index, body] of bodies.entries())
		expect(body).toContain(pack.faults.find(({ id }) => id === hidden[index]![0])!.says.slice(0, 20));
	// What broke off at the end is explained as far as it went.
	const broken = await room.people[0]!.visitor.get(`${paths[0]!.played[1]!}/debrief`);
	expect([200, 303]).toContain(broken.status);
	expect(leadsTo(broken)).not.toContain('/callout/');
});
