import { afterAll, beforeAll, expect, it } from 'vitest';
import { guestOf } from '../../guest.ts';
import { runServer, type RunningServer } from '../../running-server.ts';
import { makeDataFolder, removeFolder } from '../../test-data.ts';
import { Visitor } from '../../visitor.ts';

const folder = makeDataFolder();
let server: RunningServer;
beforeAll(async () => {
	server = await runServer(folder);
});
afterAll(async () => {
	await server.end();
	removeFolder(folder);
});

const locationOf = ({ headers }: { headers: string }) => /^location: (.*)$/m.exec(headers)?.[1];

async function askedBy(visitor: Visitor): Promise<string> {
	const asked = await visitor.post('/drills?/ask', { kind: 'heat-sums' });
	expect(asked.status).toBe(303);
	return locationOf(asked)!;
}

it('somebody who is nobody yet begins a round, and is then a guest of this browser', async () => {
	const visitor = new Visitor(server.address);
	const begun = await visitor.post('/tonight?/begin', { minutes: '20', zone: 'Europe/Paris' });
	expect([begun.status, locationOf(begun)]).toEqual([303, '/tonight']);
	expect((await visitor.get('/tonight')).body).toContain('Finish early');
	expect((await new Visitor(server.address).get('/tonight')).body).not.toContain('Finish early');
});

it.each(['', '15', '-10', '1e9', 'twenty'])('a round of "%s" minutes is refused in a sentence', async (minutes) => {
	const refused = await new Visitor(server.address).post('/tonight?/begin', { minutes });
	expect(refused.status).toBe(400);
	expect(refused.body).toContain('A round lasts 10, 20, 30 minutes.');
});

it('going on or finishing where no round is open leads to where one can be begun', async () => {
	for (const visitor of [new Visitor(server.address), (await guestOf(folder, server.address)).visitor]) {
		for (const action of ['go', 'finish']) {
			const answer = await visitor.post(`/tonight?/${action}`, {});
			expect([answer.status, locationOf(answer)]).toEqual([303, '/tonight']);
		}
	}
});

it('a kind of drill that there is not is refused, and what is no form as well', async () => {
	const visitor = new Visitor(server.address);
	expect((await visitor.post('/drills?/ask', { kind: 'x'.repeat(5000) })).status).toBe(400);
	expect((await visitor.post('/drills?/ask', {})).status).toBe(400);
	expect((await visitor.send('/tonight?/begin', '{"minutes":20}', 'text/plain')).status).toBe(400);
});

it('a drill is its learner’s own: to others it is not there, to look at or to answer', async () => {
	const visitor = new Visitor(server.address);
	const path = await askedBy(visitor);
	expect((await visitor.get(path)).status).toBe(200);
	const strangers = [new Visitor(server.address), (await guestOf(folder, server.address)).visitor];
	for (const stranger of strangers) {
		expect((await stranger.get(path)).status).toBe(404);
		expect((await stranger.get(`${path}/__data.json`)).body).not.toContain('"asks"');
		expect((await stranger.post(`${path}?/answer`, { written: '3' })).status).toBe(404);
	}
	expect((await visitor.get(path)).body).toContain('Answer</button>');
});

it('nothing of an answer is sent before one is given', async () => {
	const visitor = new Visitor(server.address);
	const path = await askedBy(visitor);
	const before = [await visitor.get(path), await visitor.get(`${path}/__data.json`)].map(({ body }) => body).join('\n');
	expect(before).not.toMatch(/"(worked|misconception|judged|seed|generator)"|How one comes to it/);
});

it('an answer of any size or shape is judged or refused, never an error of the server', async () => {
	const visitor = new Visitor(server.address);
	const path = await askedBy(visitor);
	for (const fields of [{ written: '9'.repeat(20_000) }, { chosen: 'no-such-choice' }, { 'place.a': '1', 'place.b': '1' }, {}]) {
		expect((await visitor.post(`${path}?/answer`, fields as Record<string, string>)).status).toBeLessThan(500);
	}
});
