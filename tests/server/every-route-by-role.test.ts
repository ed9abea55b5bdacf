/** The table of who may reach what is all that there is, and it is what the server does. */
import { randomUUID } from 'node:crypto';
import { eq } from 'drizzle-orm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addLearner } from '$lib/server/accounts/index.ts';
import { access, type Who } from '$lib/server/accounts/access.ts';
import { openDatabase, type Database } from '$lib/server/database/open.ts';
import { cohort, sitting, sittingItem } from '$lib/server/database/schema.ts';
import { calloutsIn } from '$lib/server/callouts/callouts.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { addAccount, calloutItem, drillItem, firstPack, joinCohort, makeCohort, makePaper, minuteMs } from '../papers.ts';
import { runServer, type RunningServer } from '../running-server.ts';
import { signIn } from '../signed-in.ts';
import { makeDataFolder, removeFolder } from '../test-data.ts';
import { Visitor } from '../visitor.ts';
import { actionsIn, routesOnDisk } from './routes-on-disk.ts';

const everyone: readonly Who[] = ['visitor', 'guest', 'learner', 'assessor', 'author', 'owner'];
const folder = makeDataFolder();
let server: RunningServer;
let db: Database;
let places: Record<string, string>;
const people = new Map<Who, string>();
let stranger: string;

beforeAll(async () => {
	server = await runServer(folder);
	db = openDatabase(folder);
	people.set('guest', addLearner({ guest: true, invented: false }, db).id);
	for (const role of ['learner', 'assessor', 'author', 'owner'] as const) people.set(role, addAccount(db, `The ${role}`, role));
	stranger = addAccount(db, 'Assessor of others', 'assessor');
	makeCohort(db, { assessor: stranger });
	places = aSatPaper();
	await closedAndMarked();
});
afterAll(async () => {
	db?.$client.close();
	await server?.end();
	removeFolder(folder);
});

/** A paper of the assessor's that a learner has sat, and whatever else may stand in an address. */
function aSatPaper(): Record<string, string> {
	const code = 'ABCD2345';
	const group = makeCohort(db, { assessor: people.get('assessor')! });
	db.update(cohort).set({ code }).where(eq(cohort.id, group)).run();
	const learner = people.get('learner')!;
	const member = joinCohort(db, group, learner);
	const item = calloutItem();
	const paper = makePaper(db, { cohort: group, variants: [[item, drillItem()]] });
	const started = calloutsIn(db, packs()).start(learner, item);
	if (started.outcome !== 'started') throw new Error(started.says);
	const id = randomUUID();
	const times = { started: new Date(Date.now() - 9 * minuteMs), seen: new Date(), deadline: new Date(Date.now() + 50 * minuteMs) };
	db.insert(sitting)
		.values({ id, paper, member, variant: 1, number: 1, ...times })
		.run();
	db.insert(sittingItem).values({ sitting: id, slot: 0, attempt: started.attemptId }).run();
	const family = firstPack().family.id;
	return {
		cohort: group,
		paper,
		member,
		sitting: id,
		number: '1',
		slot: '0',
		code,
		family,
		met: family,
		id: 'none',
		round: 'none',
		secret: 'none',
		file: 'results'
	};
}

/** A mark sheet stands in an address of its own once the server has marked the sitting. */
async function closedAndMarked(): Promise<void> {
	const keeper = signIn(db, new Visitor(server.address), people.get('assessor')!);
	const ofPaper = `/cohorts/${places.cohort}/papers/${places.paper}`;
	expect((await keeper.post(`${ofPaper}/live?/close`, { sitting: places.sitting!, reason: 'The room is closing' })).status).toBe(303);
	while ((await keeper.get(`${ofPaper}/sheets/${places.sitting}`)).status !== 200) await new Promise((later) => setTimeout(later, 200));
}

/** The address of a route; a parameter that this test knows nothing of is to be given a meaning above. */
function pathOf(route: string): string {
	return route.replace(/\[(\w+)\]/g, (_, name: string) => {
		if (!Object.hasOwn(places, name)) throw new Error(`What stands for [${name}] in ${route}?`);
		return places[name]!;
	});
}

/** The head of an answer, which is enough here. */
interface Head {
	readonly status: number;
	readonly location: string;
	readonly headers: Headers;
}

/** Asks as somebody in a browser of their own. @param key  `GET`, a method or an action */
async function ask(whose: string | undefined, route: string, key: string): Promise<Head> {
	const visitor = new Visitor(server.address);
	if (whose !== undefined) signIn(db, visitor, whose);
	const isMethod = /^[A-Z]+$/.test(key);
	const path = pathOf(route) + (isMethod || key === 'default' ? '' : `?/${key}`);
	const method = isMethod ? key : 'POST';
	const cookie = [...visitor.cookies].map(([name, value]) => `${name}=${value}`).join('; ');
	const response = await fetch(new URL(path, server.address), {
		method,
		redirect: 'manual',
		headers: { accept: 'text/html', origin: server.address, ...(cookie && { cookie }) },
		...(!['GET', 'HEAD'].includes(method) && { body: new URLSearchParams() })
	});
	await response.body?.cancel();
	return { status: response.status, location: response.headers.get('location') ?? '', headers: response.headers };
}

const isSentToSignIn = ({ status, location }: Head) => status === 303 && location.startsWith('/sign-in?to=');

/** Whoever is let in meets no failure of the server, whatever they sent. */
function said(answer: Head): 'let in' | 'sign-in' | 'refused' | 'failed' {
	if (isSentToSignIn(answer)) return 'sign-in';
	if (answer.status === 403) return 'refused';
	return answer.status < 500 ? 'let in' : 'failed';
}

/** However it is answered, no other site shows it in a frame, no browser guesses its kind, and nothing on the way keeps it. */
function expectSafeHeaders({ headers }: Head): void {
	expect(headers.get('x-content-type-options')).toBe('nosniff');
	expect(headers.get('x-frame-options')).toBe('DENY');
	// Some few answers say themselves how long they are kept.
	expect(headers.get('cache-control')).not.toBeNull();
}

const table = Object.entries(access).flatMap(([route, named]) =>
	Object.entries(named).map(([key, admitted]) => ({ route, key, admitted }))
);

it('the table holds every page, action and method that there is on disk, and nothing else', () => {
	const inTable = Object.fromEntries(Object.entries(access).map(([route, named]) => [route, Object.keys(named).sort()]));
	expect(inTable).toEqual(routesOnDisk());
	expect(Object.keys(inTable).length).toBeGreaterThan(30);
});

it('the reading of the disk sees actions however they are written, and says where it cannot', () => {
	expect(actionsIn("export const actions: Actions = { one: async () => {}, 'two': f, three() {} };")).toEqual(['one', 'two', 'three']);
	expect(actionsIn('export const actions = { default: f } satisfies Actions;')).toEqual(['default']);
	expect(actionsIn('const actions = { hidden: f };')).toEqual([]);
	expect(() => actionsIn('export const actions = { ...others };')).toThrow('without a plain name');
	expect(() => actionsIn("export { actions } from './elsewhere';")).toThrow('from elsewhere');
});

describe('an assessor of another cohort', () => {
	const ofCohort = table.filter(({ route }) => route.startsWith('/cohorts/[cohort]'));

	for (const { route, key } of ofCohort) {
		it(`finds nothing at ${route}, ${key}`, async () => {
			expect((await ask(stranger, route, key)).status).toBe(404);
		});
	}

	for (const { route } of ofCohort.filter(({ key }) => key === 'GET')) {
		it(`finds nothing where whoever keeps it finds something: ${route}`, async () => {
			expect((await ask(people.get('assessor'), route, 'GET')).status).toBeLessThan(400);
		});
	}
});

for (const { route, key, admitted } of table) {
	describe(`${route}, ${key}`, () => {
		for (const who of everyone) {
			it(`answers the ${who} as the table says`, async () => {
				const turnedAway = key === 'GET' && ['visitor', 'guest'].includes(who) ? 'sign-in' : 'refused';
				const answer = await ask(people.get(who), route, key);
				expect(said(answer)).toBe(admitted.includes(who) ? 'let in' : turnedAway);
				expectSafeHeaders(answer);
				if (said(answer) !== 'let in') expect(answer.headers.get('cache-control')).toBe('private, no-store');
			});
		}
	});
}

describe('what the table does not name', () => {
	it.each([
		['/words', 'POST'],
		['/health', 'POST'],
		['/health', 'PUT'],
		['/theme', 'DELETE'],
		['/theme', 'GET'],
		['/cohorts', 'nothing'],
		['/cohorts', 'constructor'],
		['/cohorts', '__proto__'],
		['/account', 'default']
	])('is refused even to the owner: %s, %s', async (route, key) => {
		expect((await ask(people.get('owner'), route, key)).status).toBe(403);
	});

	it('an action named like a method opens nothing', async () => {
		const visitor = signIn(db, new Visitor(server.address), people.get('owner')!);
		expect((await visitor.post('/words?/GET', {})).status).toBe(403);
		expect((await visitor.post('/cohorts?/GET', {})).status).toBe(403);
	});

	it('looking without a body is looking', async () => {
		expect(isSentToSignIn(await ask(undefined, '/cohorts', 'HEAD'))).toBe(true);
		expect((await ask(people.get('learner'), '/cohorts', 'HEAD')).status).toBe(403);
	});

	it('a page that there is not is not there, for anybody', async () => {
		for (const who of everyone) expect((await ask(people.get(who), '/nothing-here', 'GET')).status).toBe(404);
	});
});

it('a refusal is a page that says why and leads on', async () => {
	const visitor = signIn(db, new Visitor(server.address), people.get('learner')!);
	const headers = { accept: 'text/html', cookie: `session=${visitor.cookies.get('session')}` };
	const answer = await fetch(new URL('/people', server.address), { headers });
	expect([answer.status, answer.headers.get('content-type')]).toEqual([403, expect.stringContaining('text/html')]);
	const body = await answer.text();
	expect(body).toContain('This is for whoever owns this server.');
	expect(body).toContain('<h1 class="refused">Not for this account.</h1>');
	expect(body).toContain('href="/account"');
});

it('a script of ours that is refused, or sent to sign in, is answered in its own way', async () => {
	const visitor = signIn(db, new Visitor(server.address), people.get('learner')!);
	const cookie = `session=${visitor.cookies.get('session')}`;
	const refused = await fetch(new URL('/people/__data.json', server.address), { headers: { cookie } });
	expect([refused.status, await refused.json()]).toEqual([403, { message: 'This is for whoever owns this server.' }]);
	const sent = await fetch(new URL('/papers/__data.json', server.address));
	expect([sent.status, await sent.json()]).toEqual([200, { type: 'redirect', location: '/sign-in?to=%2Fpapers' }]);
});

it('whoever is sent to sign in comes back to what was asked for', async () => {
	expect((await ask(undefined, '/papers', 'GET')).location).toBe('/sign-in?to=%2Fpapers');
});

it('a role that is taken away is gone with the next request', async () => {
	const who = addAccount(db, 'Once an assessor', 'assessor');
	expect((await ask(who, '/cohorts', 'GET')).status).toBe(200);
	db.$client.prepare("update learner set role = 'learner' where id = ?").run(who);
	expect((await ask(who, '/cohorts', 'GET')).status).toBe(403);
});
