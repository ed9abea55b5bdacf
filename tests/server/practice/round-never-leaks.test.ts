/**
 * Two learners begin the same round, but for what is hidden in its callouts: other areas, other faults, other seeds, and what each is thought
 * to take the other way round. Until a callout is done, everything that can be asked for about the round reads the same to both.
 */
import { eq } from 'drizzle-orm';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openDatabase, type Database } from '$lib/server/database/open.ts';
import { round, roundItem } from '$lib/server/database/schema.ts';
import { packs } from '$lib/server/packs/packs.ts';
import type { RoundItem } from '#shared/review/round/round.ts';
import { areaSkillId } from '#shared/review/skills.ts';
import { formOf, guestOf } from '../../guest.ts';
import { runServer, type RunningServer } from '../../running-server.ts';
import { makeDataFolder, removeFolder } from '../../test-data.ts';
import type { Visitor } from '../../visitor.ts';
import { firstFamily } from '../fresh.ts';

const folder = makeDataFolder();
const pack = packs().get(firstFamily())!;
let server: RunningServer;
let db: Database;
beforeAll(async () => {
	server = await runServer(folder);
	db = openDatabase(folder);
});
afterAll(async () => {
	db.$client.close();
	await server.end();
	removeFolder(folder);
});

type CalloutItem = Extract<RoundItem, { readonly kind: 'callout' }>;
interface Someone {
	readonly visitor: Visitor;
	readonly roundId: string;
	readonly seen: string[];
}

/** A round of three callouts and a drill, the callouts hiding these faults. */
async function begin(faults: readonly string[], minutes: readonly number[], why: RoundItem['why'] = 'due'): Promise<Someone> {
	const { visitor, learnerId } = await guestOf(folder, server.address);
	expect((await visitor.post('/tonight?/begin', { minutes: '30' })).status).toBe(303);
	const { id: roundId } = db.select().from(round).where(eq(round.learner, learnerId)).get()!;
	db.delete(roundItem).where(eq(roundItem.round, roundId)).run();
	const callouts = faults.map((fault, index): CalloutItem => {
		const { area } = pack.faults.find(({ id }) => id === fault)!;
		const skill = areaSkillId(pack.family.id, area);
		return { kind: 'callout', skill, why, minutes: minutes[index]!, seed: 1711117001 + 977 * index, family: pack.family.id, fault };
	});
	const drill: RoundItem = {
		kind: 'drill',
		skill: 'drill/water-sums',
		why: 'new',
		minutes: 2,
		seed: 1711118003,
		generator: 'expansion-volume',
		family: null
	};
	for (const [place, item] of [...callouts, drill].entries()) {
		db.insert(roundItem)
			.values({ round: roundId, place, skill: item.skill, content: JSON.stringify(item) })
			.run();
	}
	return { visitor, roundId, seen: [] };
}

/** Everything about the round that can be asked for, less what is never the same twice. */
async function look({ visitor, roundId, seen }: Someone): Promise<string> {
	const pages = ['/', '/__data.json', '/tonight', '/tonight/__data.json', '/drills', '/drills/__data.json', '/callouts', '/account/export'];
	const answers: string[] = [];
	for (const path of pages) {
		const { status, body } = await visitor.get(path);
		expect(status, path).toBe(200);
		seen.push(body);
		// The complaint, which the list of callouts and the first page repeat, is the customer's own and differs.
		answers.push(`${path} ${status}\n${path === '/callouts' ? '' : body}`);
	}
	return answers
		.join('\n')
		.replaceAll(roundId, 'ROUND')
		.replaceAll(/[\w-]{22}(?=["'/\\?])/g, 'ID')
		.replaceAll(/nonce[-="]+[^"']+["']/g, 'NONCE')
		.replaceAll(/__sveltekit_\w+/g, 'KIT')
		.replaceAll(/\d{4}-\d\d-\d\dT[\d:.]+Z/g, 'DATE');
}

it('shows two learners the same round until a callout is done, whatever is hidden in it', async () => {
	const byArea = new Map(pack.faults.map((fault) => [fault.area, fault.id]));
	const [a, b, c, d] = [...byArea.values()];
	const people = [await begin([a!, b!, c!], [5, 9, 7]), await begin([d!, a!, b!], [9, 5, 7])];
	const [one, other] = people as [Someone, Someone];
	expect(await look(one)).toBe(await look(other));
	// What may be seen is seen: one round is told from another by why a callout is in it, and by what all of it takes.
	expect(await look(await begin([a!, b!, c!], [5, 9, 7], 'early'))).not.toBe(await look(one));
	expect(await look(await begin([a!, b!, c!], [5, 9, 10]))).not.toBe(await look(one));

	for (const { visitor, seen } of people) {
		const gone = await visitor.post('/tonight?/go', {});
		const path = /location: (\/callout\/[\w-]+)/.exec(gone.headers)![1]!;
		await visitor.post(`${path}?/act`, formOf({ kind: 'demand', demand: 'tap' }, 0));
		for (const more of ['', '/__data.json', '/debrief', '/debrief/__data.json']) seen.push((await visitor.get(path + more)).body);
	}
	// With a callout running, the first page repeats the complaint of this very customer.
	const round = async (someone: Someone) =>
		(await look(someone))
			.replaceAll(/"complaint"?:"[^"]*"/g, '')
			.split(/\n(?=\/)/)
			.filter((page) => /^\/(tonight|drills|account)/.test(page));
	expect(await round(one)).toEqual(await round(other));

	for (const { visitor, seen } of people) {
		const everything = [...seen, ...visitor.answers.map(({ headers }) => headers), ...visitor.cookies.values()].join('\n');
		for (const area of byArea.keys()) expect(everything).not.toContain(areaSkillId(pack.family.id, area));
		expect(everything).not.toMatch(/17111(1[78]|19)\d{3}/);
	}
});
