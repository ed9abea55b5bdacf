/** Sixty learners sit at once, each by HTTP in a browser of their own, while an assessor follows them. */
import { Readable } from 'node:stream';
import type { ReadableStream } from 'node:stream/web';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openDatabase, type Database } from '$lib/server/database/open.ts';
import type { Shown } from '$lib/server/live/ticker.ts';
import type { Wall } from '$lib/server/live/wall.ts';
import { joinCohort, makeCohort, makePaper } from '../papers.ts';
import { runServer, type RunningServer } from '../running-server.ts';
import { addSignedIn } from '../signed-in.ts';
import { makeDataFolder, removeFolder } from '../test-data.ts';
import type { Answer, Visitor } from '../visitor.ts';

const howMany = 60;
/** Nothing is claimed of speed: this is when a test that waits for what never comes gives up. */
const waitMs = 240_000;

const folder = makeDataFolder();
let server: RunningServer;
let db: Database;
beforeAll(async () => {
	server = await runServer(folder);
	db = openDatabase(folder);
});
afterAll(async () => {
	db?.$client.close();
	await server?.end();
	removeFolder(folder);
});

const goesTo = ({ headers }: Answer) => /^location: (.*)$/m.exec(headers)?.[1] ?? '';

/** Follows a wall by its events, as a browser does. */
function follow(visitor: Visitor, path: string) {
	const stop = new AbortController();
	const heard = { walls: 0, latest: null as Wall | null, isOver: false };
	const cookie = [...visitor.cookies].map(([name, value]) => `${name}=${value}`).join('; ');
	const ended = (async () => {
		const response = await fetch(new URL(path, visitor.address), { headers: { cookie }, signal: stop.signal });
		expect(response.status).toBe(200);
		expect(response.headers.get('content-type')).toBe('text/event-stream');
		let text = '';
		const decoder = new TextDecoder();
		for await (const bytes of Readable.fromWeb(response.body as ReadableStream<Uint8Array>)) {
			const chunk = decoder.decode(bytes as Uint8Array, { stream: true });
			const parts = (text + chunk).split('\n\n');
			text = parts.pop()!;
			for (const part of parts) {
				if (part.startsWith('event: over')) heard.isOver = true;
				else if (part.startsWith('data: ')) {
					heard.latest = (JSON.parse(part.slice(6)) as Shown).wall;
					heard.walls++;
				}
			}
		}
	})();
	return { heard, stop: () => stop.abort(), ended: ended.catch((error: Error) => error) };
}

async function until(holds: () => boolean, what: string): Promise<void> {
	const gaveUp = Date.now() + waitMs;
	while (!holds()) {
		if (Date.now() > gaveUp) throw new Error(`waited in vain until ${what}`);
		await new Promise((later) => setTimeout(later, 50));
	}
}

/** Begins the paper, goes to its first item and does some things there. */
async function sit(visitor: Visitor, paper: string): Promise<void> {
	const sitting = goesTo(await visitor.post(`/papers/${paper}?/begin`, {}));
	expect(sitting).toMatch(/^\/sitting\/[\w-]+$/);
	const callout = goesTo(await visitor.post(`${sitting}?/go`, { slot: '0' }));
	expect(callout).toMatch(/^\/callout\/[\w-]+$/);
	const does: Record<string, string>[] = [
		{ kind: 'demand', demand: 'tap' },
		{ kind: 'step', step: 'isolate-water' }
	];
	for (const [seq, did] of does.entries()) {
		const { status } = await visitor.post(`${callout}?/act`, { ...did, seq: String(seq) });
		expect(status).toBe(303);
	}
}

it('all sixty are shown with their last action, and the watch ends when the assessor signs out', async () => {
	const assessor = addSignedIn(db, server.address, 'Assessor', 'assessor');
	const cohort = makeCohort(db, { assessor: assessor.id });
	const paper = makePaper(db, { cohort });
	const sitters = Array.from({ length: howMany }, (_, index) =>
		addSignedIn(db, server.address, `Sitter ${String(index + 1).padStart(2, '0')}`)
	);
	for (const { id } of sitters) joinCohort(db, cohort, id);

	const live = `/cohorts/${cohort}/papers/${paper}/live`;
	const { heard, ended } = follow(assessor.visitor, `${live}/events`);
	await until(() => heard.latest !== null, 'the wall comes');
	expect(heard.latest!.counts).toMatchObject({ all: howMany, 'not-begun': howMany, sitting: 0 });

	const began = Date.now();
	await Promise.all(sitters.map(({ visitor }) => sit(visitor, paper)));
	const sat = Date.now();
	const isThere = () => heard.latest!.sitters.filter(({ last }) => last?.says === 'Isolate the water').length === howMany;
	await until(isThere, 'all sixty are shown with what they did last').catch((error: Error) => {
		throw new Error(`${error.message}; shown: ${JSON.stringify([...new Set(heard.latest!.sitters.map(({ last }) => last?.says))])}`);
	});
	process.stdout.write(
		`${howMany} sitters: begun and two actions each in ${sat - began} ms; all of it on the wall ${Date.now() - sat} ms after the last, in ${heard.walls} snapshots\n`
	);

	const { sitters: shown, counts } = heard.latest!;
	expect(counts).toMatchObject({ sitting: howMany, 'not-begun': 0 });
	expect(new Set(shown.map(({ name }) => name)).size).toBe(howMany);
	expect(shown.every(({ place }) => place?.item === 1 && place.kind === 'callout')).toBe(true);
	// Every variant is sat by a third of them, give or take none.
	expect([1, 2, 3].map((variant) => shown.filter((one) => one.variant === variant).length)).toEqual([20, 20, 20]);

	await assessor.visitor.post('/account?/signOut', {});
	await until(() => heard.isOver, 'the watch is over');
	expect(await ended).toBeUndefined();
});

it('watchers who go away without a word do no harm to who comes after', async () => {
	const assessor = addSignedIn(db, server.address, 'Another assessor', 'assessor');
	const paper = makePaper(db, { cohort: makeCohort(db, { assessor: assessor.id }) });
	const [{ cohort }] = db.$client.prepare('select cohort from paper where id = ?').all(paper) as [{ cohort: string }];
	const watches = Array.from({ length: 10 }, () => follow(assessor.visitor, `/cohorts/${cohort}/papers/${paper}/live/events`));
	await until(() => watches.every(({ heard }) => heard.latest !== null), 'all ten watch');
	for (const { stop } of watches) stop();
	await Promise.all(watches.map(({ ended }) => ended));
	expect((await assessor.visitor.get(`/cohorts/${cohort}/papers/${paper}/live/now`)).status).toBe(200);
	expect(server.errors()).toBe('');
});
