import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runServer, type RunningServer } from '../running-server.ts';
import { makeDataFolder, removeFolder } from '../test-data.ts';
import { Visitor, type Answer } from '../visitor.ts';

const folder = makeDataFolder();
const password = 'two short planks';
let server: RunningServer;
beforeAll(async () => {
	server = await runServer(folder);
});
afterAll(async () => {
	await server.end();
	removeFolder(folder);
});

const linkOf = ({ said }: RunningServer) =>
	/^There is no owner yet\. .*: http:\/\/127\.0\.0\.1:\d+(\/owner\/[\w-]{43})$/m.exec(said())?.[1];
const goesTo = ({ headers }: Answer) => /^location: (.*)$/m.exec(headers)?.[1];
const cookieOf = ({ headers }: Answer) => /^set-cookie: (session=.*)$/m.exec(headers)?.[1];
let count = 0;
async function signedUp(): Promise<{ visitor: Visitor; name: string }> {
	const visitor = new Visitor(server.address);
	const name = `Learner ${++count}`;
	expect(goesTo(await visitor.post('/sign-up', { name, password }))).toBe('/account?welcome');
	return { visitor, name };
}

describe('the first owner', () => {
	it('signs up by the link of the last start, once; looking at it does not spend it', async () => {
		const first = linkOf(server)!;
		expect((await new Visitor(server.address).get(first)).status).toBe(200);
		await server.end();
		server = await runServer(folder);
		const second = linkOf(server)!;
		expect(second).not.toBe(first);
		const visitor = new Visitor(server.address);
		expect((await visitor.get(first)).status).toBe(404);
		expect((await visitor.post(`${first}?/signUp`, { name: 'Not the owner', password })).status).toBe(404);
		for (let looks = 0; looks < 2; looks++) expect((await visitor.get(second)).status).toBe(200);
		expect((await visitor.post(`${second}?/signUp`, { name: 'x', password })).status).toBe(400);

		expect(goesTo(await visitor.post(`${second}?/signUp`, { name: 'The owner', password }))).toBe('/account?owner');
		expect((await visitor.get('/account')).body).toContain('owner of this server');

		const late = new Visitor(server.address);
		expect((await late.get(second)).status).toBe(404);
		expect((await late.post(`${second}?/signUp`, { name: 'Second owner', password })).status).toBe(404);
		expect((await late.get('/account')).body).not.toContain('Second owner');
		const { visitor: learner } = await signedUp();
		expect((await learner.post(`${second}?/raise`, {})).status).toBe(404);
		expect((await learner.get('/account')).body).not.toContain('Your role here: owner');
	});

	it('is one of two who open the link at once, and the other is told what became of it', async () => {
		const own = makeDataFolder();
		const alone = await runServer(own);
		try {
			const link = linkOf(alone)!;
			const people = ['First', 'Second'].map((name) => ({ name, visitor: new Visitor(alone.address) }));
			const answers = await Promise.all(people.map(({ name, visitor }) => visitor.post(`${link}?/signUp`, { name, password })));
			expect(answers.map((answer) => goesTo(answer)).filter(Boolean)).toEqual(['/account?owner']);
			const late = answers.find((answer) => goesTo(answer) === undefined)!;
			expect(late.status).toBe(404);
			expect(late.body).toContain('This link is of no use any more: it was used');
		} finally {
			await alone.end();
			removeFolder(own);
		}
	});

	it('is asked for no more, once there is one, and again once there is none; an account that is signed in can be raised', async () => {
		await server.end();
		server = await runServer(folder);
		expect(server.said()).not.toContain('owner');
		const visitor = new Visitor(server.address);
		await visitor.post('/sign-in', { name: 'The owner', password });
		expect(goesTo(await visitor.post('/account?/delete', { password, sure: 'yes' }))).toBe('/account?deleted');
		await server.end();
		server = await runServer(folder);
		const link = linkOf(server)!;
		expect((await new Visitor(server.address).post(`${link}?/raise`, {})).status).toBe(401);
		const { visitor: learner, name } = await signedUp();
		expect((await learner.get(link)).body).toContain(`Make ${name} the owner`);
		expect(goesTo(await learner.post(`${link}?/raise`, {}))).toBe('/account?owner');
		expect((await learner.get('/account')).body).toContain('owner of this server');
	});
});

describe('the session cookie', () => {
	it('is new at every signing up and in, and out of reach of scripts and other sites', async () => {
		const visitor = new Visitor(server.address);
		await visitor.post('/?/start', { family: 'combi-plate-primary' });
		const seen = [visitor.cookies.get('session')];
		const answers = [await visitor.post('/sign-up', { name: 'New cookies', password })];
		seen.push(visitor.cookies.get('session'));
		expect(goesTo(await visitor.post('/account?/signOut', {}))).toBe('/');
		answers.push(await visitor.post('/sign-in', { name: 'new cookies', password }));
		seen.push(visitor.cookies.get('session'));
		expect(new Set(seen).size).toBe(3);
		for (const answer of answers) expect(cookieOf(answer)).toMatch(/^session=[\w-]{43}; Path=\/; Expires=.*; HttpOnly; SameSite=Lax$/i);
		expect((await visitor.get('/callouts')).body).toMatch(/href="\/callout\/[\w-]+"/);
	});

	it('is sent over https only, where visitors come by https', async () => {
		const own = makeDataFolder();
		const origin = 'https://provewell.example';
		const secure = await runServer(own, 0, undefined, { ORIGIN: origin });
		try {
			expect(secure.said()).toContain(`${origin}/owner/`);
			const answer = await new Visitor(secure.address).post('/sign-up', { name: 'Ann', password }, origin);
			expect(cookieOf(answer)).toMatch(/; Secure/i);
			expect(secure.errors()).toContain('ADDRESS_HEADER is not set');
		} finally {
			await secure.end();
			removeFolder(own);
		}
	});
});

it('behind a proxy that fails to name the address, as was agreed, signing up and in go on', async () => {
	const own = makeDataFolder();
	const origin = 'https://provewell.example';
	const proxied = await runServer(own, 0, undefined, { ORIGIN: origin, ADDRESS_HEADER: 'x-real-ip' });
	try {
		expect(goesTo(await new Visitor(proxied.address).post('/sign-up', { name: 'Ann', password }, origin))).toBe('/account?welcome');
		expect(goesTo(await new Visitor(proxied.address).post('/sign-in', { name: 'Ann', password }, origin))).toBe('/');
		expect(proxied.errors().match(/"level":40/g)).toHaveLength(1);
		expect(proxied.errors()).toContain('A visit came without its address');
	} finally {
		await proxied.end();
		removeFolder(own);
	}
});

describe('signing in', () => {
	it('leads back within this site only', async () => {
		const { name } = await signedUp();
		for (const [to, where] of [
			['/callouts?x=1', '/callouts?x=1'],
			['https://elsewhere.example/', '/'],
			['//elsewhere.example', '/'],
			['/\\elsewhere.example', '/'],
			['javascript:alert(1)', '/'],
			['/sign-in', '/']
		] as const) {
			expect(goesTo(await new Visitor(server.address).post('/sign-in', { name, password, to }))).toBe(where);
		}
	});

	it('and every other change of an account is refused to a form on another site', async () => {
		const { visitor, name } = await signedUp();
		const elsewhere = 'http://elsewhere.example';
		const paths = [
			'/sign-in',
			'/sign-up',
			'/settings?/zone',
			...['signOut', 'signOutEverywhere', 'password', 'delete'].map((one) => `/account?/${one}`)
		];
		for (const path of paths) {
			const answer = await visitor.post(path, { name, password, newPassword: 'another password', sure: 'yes', zone: 'UTC' }, elsewhere);
			expect(answer.status, path).toBe(403);
		}
		expect((await visitor.get('/account')).body).toContain(name);
	});

	it('keeps the name that was written when it is refused, never the password, and shows markup as it was written', async () => {
		const { status, body } = await new Visitor(server.address).post('/sign-in', {
			name: '"><script>x</script>',
			password: 'my secret words'
		});
		expect(status).toBe(400);
		expect(body).toContain('do not belong together');
		expect(body).not.toContain('<script>x');
		expect(body).not.toContain('my secret words');
	});
});

it('signing out, and everywhere, ends what it says', async () => {
	const { visitor, name } = await signedUp();
	const other = new Visitor(server.address);
	await other.post('/sign-in', { name, password });
	const knows = async (one: Visitor) => (await one.get('/account')).body.includes(name);
	const stolen = new Map(visitor.cookies);
	await visitor.post('/account?/signOut', {});
	expect([await knows(visitor), await knows(other)]).toEqual([false, true]);
	const thief = new Visitor(server.address);
	for (const [cookie, value] of stolen) thief.cookies.set(cookie, value);
	expect(await knows(thief)).toBe(false);
	await visitor.post('/sign-in', { name, password });
	await visitor.post('/account?/signOutEverywhere', {});
	expect([await knows(visitor), await knows(other)]).toEqual([false, false]);
});

it('the export is a file of the asker’s own, and of nobody else’s', async () => {
	const { visitor, name } = await signedUp();
	await visitor.post('/?/start', { family: 'combi-plate-primary' });
	const { headers, body } = await visitor.get('/account/export');
	expect(headers).toMatch(/^content-type: application\/json/m);
	expect(headers).toMatch(/^content-disposition: attachment; filename="provewell-\d{4}-\d\d-\d\d\.json"$/m);
	expect(headers).toMatch(/^cache-control: private, no-store$/m);
	expect(JSON.parse(body)).toMatchObject({ account: { name }, attempts: [{ family: 'combi-plate-primary', actions: [] }] });
	const { visitor: other } = await signedUp();
	expect(JSON.parse((await other.get('/account/export')).body)).toMatchObject({ attempts: [] });
	expect((await new Visitor(server.address).get('/account/export')).status).toBe(401);
});

it('a zone is kept when it is one, and refused in words when it is none', async () => {
	const { visitor } = await signedUp();
	expect(goesTo(await visitor.post('/settings?/zone', { zone: 'Asia/Tokyo' }))).toBe('/settings?kept');
	expect((await visitor.get('/settings')).body).toMatch(/<option value="Asia\/Tokyo" selected/);
	const { status, body } = await visitor.post('/settings?/zone', { zone: 'Mars/Olympus' });
	expect(status).toBe(400);
	expect(body).toContain('Choose one of the zones in the list.');
	expect((await new Visitor(server.address).post('/settings?/zone', { zone: 'Asia/Tokyo' })).status).toBe(400);
});
