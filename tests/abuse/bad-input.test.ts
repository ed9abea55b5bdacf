import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { calloutsIn } from '$lib/server/callouts/callouts.ts';
import { openDatabase } from '$lib/server/database/open.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { guestOf } from '../guest.ts';
import { runServer, type RunningServer } from '../running-server.ts';
import { makeDataFolder, removeFolder } from '../test-data.ts';
import { Visitor } from '../visitor.ts';

const folder = makeDataFolder();
let server: RunningServer;
let guest: Awaited<ReturnType<typeof guestOf>>;
let attemptId: string;
beforeAll(async () => {
	server = await runServer(folder);
	guest = await guestOf(folder, server.address);
	attemptId = withService((callouts) => {
		const started = callouts.start(guest.learnerId, { family: [...packs().keys()][0]!, seed: 3 });
		if (started.outcome !== 'started') throw new Error(started.says);
		return started.attemptId;
	});
});
afterAll(async () => {
	await server.end();
	removeFolder(folder);
});

function withService<Result>(use: (callouts: ReturnType<typeof calloutsIn>) => Result): Result {
	const db = openDatabase(folder);
	try {
		return use(calloutsIn(db, packs()));
	} finally {
		db.$client.close();
	}
}

const seqNow = () => withService((callouts) => callouts.load(attemptId, guest.learnerId)!.seq);

describe('a form that no page of ours sends', () => {
	it.each<[string, Record<string, string>]>([
		['nothing at all', {}],
		['no action', { seq: '0' }],
		['an unknown kind', { kind: 'cure', seq: '0' }],
		['the name of an inherited property as kind', { kind: '__proto__', seq: '0' }],
		['another inherited one', { kind: 'constructor', seq: '0' }],
		['a demand that is none', { kind: 'demand', demand: 'bath', seq: '0' }],
		['a check without a name', { kind: 'check', check: '', seq: '0' }],
		['an unknown check', { kind: 'check', check: 'no-such-check', seq: '0' }],
		['a check with a name far too long', { kind: 'check', check: 'x'.repeat(5000), seq: '0' }],
		['an unknown step', { kind: 'step', step: 'no-such-step', seq: '0' }],
		['an unknown part', { kind: 'remedy', remedy: 'fit-everything', sure: 'proved', seq: '0' }],
		['a sureness that is none', { kind: 'remedy', remedy: 'fit-pump', sure: 'certain', seq: '0' }],
		['a fault that is none', { kind: 'judge', still: 'no-such-fault', seq: '0' }],
		['advice that is none', { kind: 'leave', told: 'no-such-advice', seq: '0' }],
		['no number', { kind: 'demand', demand: 'tap' }],
		['a number that is none', { kind: 'demand', demand: 'tap', seq: '0x0' }],
		['a number below nought', { kind: 'demand', demand: 'tap', seq: '-1' }],
		['a broken number', { kind: 'demand', demand: 'tap', seq: '0.5' }],
		['a number too large to count', { kind: 'demand', demand: 'tap', seq: '9'.repeat(400) }]
	])('is turned away and stores nothing: %s', async (_, fields) => {
		const { status, body } = await guest.visitor.post(`/callout/${attemptId}?/act`, fields);
		expect([400, 409]).toContain(status);
		expect(body).not.toMatch(/node_modules|at \w+ \(|SQLITE/);
		expect(seqNow()).toBe(0);
	});

	it('is turned away when it is too large to read', async () => {
		const { status } = await guest.visitor.post(`/callout/${attemptId}?/act`, { kind: 'judge', still: 'x'.repeat(2_000_000), seq: '0' });
		expect(status).toBeGreaterThanOrEqual(400);
		expect(status).toBeLessThan(500);
		expect(seqNow()).toBe(0);
	});
});

const contents: [string, string, string][] = [
	['multipart that breaks off', 'multipart/form-data; boundary=x', '--x\r\nContent-Disposition: form-data; name="seq"\r\n\r\n0'],
	['multipart that is none', 'multipart/form-data; boundary=x', 'kind=demand&demand=tap&seq=0'],
	['multipart without a boundary', 'multipart/form-data', '--x\r\n\r\n--x--'],
	['a kind that only scripts of the framework send', 'application/x-sveltekit-formdata', 'kind=demand&demand=tap&seq=0'],
	['JSON', 'application/json', '{"kind":"demand","demand":"tap","seq":0}'],
	['text', 'text/plain', 'kind=demand'],
	['a kind with odd characters', 'multipart/form-data; boundary="', 'x']
];

describe('what is no form', () => {
	it.each(contents)('is turned away with a sentence by every page that takes one: %s', async (_, type, body) => {
		for (const path of [
			`/callout/${attemptId}?/act`,
			'/?/start',
			'/settings?/keep',
			'/settings?/zone',
			'/theme',
			'/sign-in',
			'/sign-up',
			'/account?/delete'
		]) {
			const answer = await guest.visitor.send(path, body, type);
			expect([400, 415], `${path} ${answer.status}`).toContain(answer.status);
			expect(answer.body).toMatch(/was expected|could not be (read|taken)/);
			expect(answer.body).not.toMatch(/node_modules|at \w+ \(|went wrong/);
		}
		expect(seqNow()).toBe(0);
	});
});

describe('the way back from the choice of theme', () => {
	it.each<[string, string]>([
		['/callouts?x=1', '/callouts?x=1'],
		['https://elsewhere.example/', '/'],
		['//elsewhere.example', '/'],
		['/\\elsewhere.example', '/'],
		['\\\\elsewhere.example', '/'],
		['/\t/elsewhere.example', '/'],
		['/\n/elsewhere.example', '/'],
		['\t//elsewhere.example', '/'],
		['/.//elsewhere.example', '/'],
		['/x/..//elsewhere.example', '/'],
		['javascript:alert(1)', '/'],
		['http://', '/'],
		['/theme', '/']
	])('from %j leads to %j', async (from, to) => {
		const { status, headers } = await guest.visitor.post('/theme', { theme: 'dark', from });
		expect(status).toBe(303);
		expect(/^location: (.*)$/m.exec(headers)![1]).toBe(to);
	});
});

describe('a callout of someone else', () => {
	it('is not there: to look at, to act on, to be debriefed about', async () => {
		const others = [new Visitor(server.address), (await guestOf(folder, server.address)).visitor];
		for (const visitor of others) {
			expect((await visitor.get(`/callout/${attemptId}`)).status).toBe(404);
			expect((await visitor.get(`/callout/${attemptId}/debrief`)).status).toBe(404);
			expect((await visitor.post(`/callout/${attemptId}?/act`, { kind: 'demand', demand: 'tap', seq: '0' })).status).toBe(404);
		}
		expect(seqNow()).toBe(0);
	});

	it('is not found by odd ids', async () => {
		for (const id of ["' or 1=1 --", '..%2f..%2fetc%2fpasswd', '%00', 'x'.repeat(3000), attemptId.toUpperCase()]) {
			expect((await guest.visitor.get(`/callout/${encodeURIComponent(id)}`)).status).toBe(404);
		}
	});

	it('is not opened by a made-up or forged session', async () => {
		for (const session of ['', 'made-up', 'x'.repeat(4000), "' or 1=1 --"]) {
			const visitor = new Visitor(server.address);
			visitor.cookies.set('session', encodeURIComponent(session));
			expect((await visitor.get(`/callout/${attemptId}`)).status).toBe(404);
		}
	});
});

it('leaves the server well, and nothing unforeseen in its log', async () => {
	expect(await (await fetch(`${server.address}/health`)).json()).toEqual({ well: true });
	expect(server.errors()).toBe('');
	const { status } = await guest.visitor.post(`/callout/${attemptId}?/act`, { kind: 'demand', demand: 'tap', seq: '0' });
	expect(status).toBe(303);
	expect(seqNow()).toBe(1);
});
