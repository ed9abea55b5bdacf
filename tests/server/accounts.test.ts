import { parseOptions } from '@node-rs/argon2';
import { eq } from 'drizzle-orm';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import {
	changePassword,
	deleteAccount,
	deleteGuest,
	endAllSessions,
	endSession,
	learnerOrGuest,
	ownAccount,
	signIn,
	signUp
} from '$lib/server/accounts/index.ts';
import { accountNamed } from '$lib/server/accounts/learners.ts';
import { closeDatabase, database } from '$lib/server/database/open.ts';
import { learner } from '$lib/server/database/schema.ts';
import { setZone, zoneOf, zones } from '$lib/server/zones.ts';
import { defaultZone } from '#shared/review/memory/memory.ts';
import { Browser } from '../arriving.ts';
import { freshFolder } from './fresh.ts';

const password = 'two short planks';
const done = { outcome: 'done' };

beforeEach(() => vi.stubEnv('PROVEWELL_DATA', freshFolder()));
afterEach(closeDatabase);

/** A browser in which somebody has signed up. */
async function signedUp(name: string, fields: object = {}): Promise<Browser> {
	const browser = new Browser();
	expect(await signUp(await browser.arrive(), { name, password, ...fields })).toEqual(done);
	return browser;
}
const problemsOf = async (fields: object) => {
	const { problems } = (await signUp(await new Browser().arrive(), { name: 'Ann', password, ...fields })) as { problems?: object };
	return problems;
};

describe('a guest', () => {
	it('is made once and known again by the cookie', async () => {
		const browser = new Browser();
		const visit = await browser.arrive();
		expect(visit.locals.learner).toBeNull();
		const guest = await learnerOrGuest(visit);
		expect(await learnerOrGuest(visit)).toEqual(guest);
		expect(await browser.learner()).toEqual(guest);
		expect(guest).toMatchObject({ guest: true, role: 'learner', name: null });
	});

	it('has a cookie out of reach of scripts and other sites, and secure only over https', async () => {
		for (const [url, secure] of [
			['http://localhost/', false],
			['https://example.org/', true]
		] as const) {
			const browser = new Browser(url);
			await learnerOrGuest(await browser.arrive());
			expect([...browser.options.values()]).toEqual([expect.objectContaining({ httpOnly: true, sameSite: 'lax', secure, path: '/' })]);
		}
	});

	it('is in the time zone that the browser names, else in that of the rules', async () => {
		expect((await learnerOrGuest(await new Browser().arrive(), 'Pacific/Auckland')).zone).toBe('Pacific/Auckland');
		for (const said of [undefined, '', 'Mars/Olympus', '+01:00', 'x'.repeat(5000), '../etc/passwd', 7]) {
			expect((await learnerOrGuest(await new Browser().arrive(), said)).zone).toBe(defaultZone);
		}
	});

	it('can have all that was kept deleted', async () => {
		const browser = new Browser();
		const { id } = await learnerOrGuest(await browser.arrive());
		expect(await deleteGuest(await browser.arrive(), {})).toMatchObject({ problems: { sure: expect.any(String) } });
		expect(await deleteGuest(await browser.arrive(), { sure: 'yes' })).toEqual(done);
		expect(database().select().from(learner).where(eq(learner.id, id)).all()).toEqual([]);
		expect(browser.jar.size).toBe(0);
	});
});

describe('signing up', () => {
	it('makes the guest the account', async () => {
		const browser = new Browser();
		const { id } = await learnerOrGuest(await browser.arrive());
		expect(await signUp(await browser.arrive(), { name: 'Ann', password, email: 'ann@example.org' })).toEqual(done);
		expect(await browser.learner()).toEqual({ id, guest: false, invented: false, role: 'learner', name: 'Ann', zone: defaultZone });
		expect(ownAccount(id)).toMatchObject({ name: 'Ann', email: 'ann@example.org' });
	});

	it('makes an account for a visitor who was no guest, in the zone of the browser', async () => {
		const browser = await signedUp('Ann', { zone: 'America/Toronto' });
		expect(await browser.learner()).toMatchObject({ guest: false, name: 'Ann', zone: 'America/Toronto' });
	});

	it('leaves a zone that was chosen by hand', async () => {
		const browser = new Browser();
		const { id } = await learnerOrGuest(await browser.arrive(), 'Asia/Tokyo');
		expect(setZone(id, 'Australia/Perth')).toBe(true);
		await signUp(await browser.arrive(), { name: 'Ann', password, zone: 'Asia/Tokyo' });
		expect((await browser.learner())!.zone).toBe('Australia/Perth');
	});

	it('keeps of the password an Argon2id hash of the stated cost, and nothing else', async () => {
		await signedUp('Ann');
		const { password: stored } = accountNamed('ann')!;
		expect(stored).toMatch(/^\$argon2id\$v=19\$/);
		// OWASP, Password Storage Cheat Sheet: 19 MiB, 2 passes, 1 lane (*from memory*).
		expect(parseOptions(stored!)).toMatchObject({ memoryCost: 19 * 1024, timeCost: 2, parallelism: 1 });
		expect(JSON.stringify(database().select().from(learner).all())).not.toContain(password);
	});

	it('takes a name and a password in any script and of any composition', async () => {
		for (const [name, word] of [
			['Ål', 'aaaaaaaaaa'],
			['Zoë O’Neill-Smith', '          '],
			['李小龙', '正確馬電池釘書針是對的'],
			['Müller 2', '🔧🔧🔧🔧🔧🔧🔧🔧🔧🔧']
		] as const) {
			await signedUp(name, { password: word });
			const browser = new Browser();
			expect(await signIn(await browser.arrive(), { name, password: word })).toEqual(done);
			expect((await browser.learner())!.name).toBe(name);
		}
	});

	it.each([
		[{ name: undefined }, 'name'],
		[{ name: '' }, 'name'],
		[{ name: '   ' }, 'name'],
		[{ name: 'A' }, 'name'],
		[{ name: 'n'.repeat(41) }, 'name'],
		[{ name: '...' }, 'name'],
		[{ name: 'An\u0000n' }, 'name'],
		[{ name: 'An\u202en' }, 'name'],
		[{ name: 'An\u200bn' }, 'name'],
		[{ name: 'An\u3164n' }, 'name'],
		[{ name: 'An\nn' }, 'name'],
		[{ password: undefined }, 'password'],
		[{ password: 'nine char' }, 'password'],
		[{ password: 'x'.repeat(201) }, 'password'],
		[{ email: 'not an address' }, 'email'],
		[{ email: `${'x'.repeat(250)}@example.org` }, 'email']
	])('says beside the field what is wrong: %j', async (fields, field) => {
		expect(await problemsOf(fields)).toEqual({ [field]: expect.any(String) });
		expect(database().select().from(learner).all()).toEqual([]);
	});

	it('has one account of a name, whichever way it is written', async () => {
		await signedUp('Ann Straße');
		for (const name of ['ann strasse', 'ANN  STRASSE', ' Ａｎｎ Straße ']) {
			expect(await problemsOf({ name })).toEqual({ name: expect.stringContaining('taken') });
			expect(await signIn(await new Browser().arrive(), { name, password })).toEqual(done);
		}
	});

	it('makes one account of two forms sent at once', async () => {
		const [one, other] = [new Browser(), new Browser()];
		const visits = [await one.arrive(), await other.arrive()];
		const outcomes = await Promise.all(visits.map((visit) => signUp(visit, { name: 'Ann', password })));
		expect(outcomes.map(({ outcome }) => outcome).toSorted()).toEqual(['done', 'refused']);
		expect(database().select().from(learner).all()).toHaveLength(1);
	});
});

describe('sessions', () => {
	it('end in one browser, or in all', async () => {
		const browsers = [await signedUp('Ann'), new Browser(), new Browser()];
		for (const browser of browsers.slice(1)) await signIn(await browser.arrive(), { name: 'ann', password });
		const names = async () => Promise.all(browsers.map(async (browser) => (await browser.learner())?.name ?? null));
		expect(await names()).toEqual(['Ann', 'Ann', 'Ann']);
		await endSession(await browsers[0]!.arrive());
		expect(await names()).toEqual([null, 'Ann', 'Ann']);
		expect(browsers[0]!.jar.size).toBe(0);
		await endAllSessions((await browsers[1]!.learner())!.id);
		expect(await names()).toEqual([null, null, null]);
	});

	it('of other browsers end when the password is changed', async () => {
		const [own, other] = [await signedUp('Ann'), new Browser()];
		await signIn(await other.arrive(), { name: 'Ann', password });
		const wanted = 'a newer pair of planks';
		expect(await changePassword(await own.arrive(), { password: 'not my password', newPassword: wanted })).toMatchObject({
			problems: { password: expect.any(String) }
		});
		expect(await changePassword(await own.arrive(), { password, newPassword: 'short' })).toMatchObject({
			problems: { newPassword: expect.any(String) }
		});
		expect((await other.learner())!.name).toBe('Ann');
		expect(await changePassword(await own.arrive(), { password, newPassword: wanted })).toEqual(done);
		expect(await other.learner()).toBeNull();
		expect((await own.learner())!.name).toBe('Ann');
		expect((await signIn(await other.arrive(), { name: 'Ann', password })).outcome).toBe('refused');
		expect(await signIn(await other.arrive(), { name: 'Ann', password: wanted })).toEqual(done);
	});
});

it('an account is deleted with its password and a clear word only, and its name is free again', async () => {
	const browser = await signedUp('Ann');
	for (const [fields, field] of [
		[{ password }, 'sure'],
		[{ password, sure: 'no' }, 'sure'],
		[{ sure: 'yes' }, 'password'],
		[{ sure: 'yes', password: 'not my password' }, 'password']
	] as const) {
		expect(await deleteAccount(await browser.arrive(), fields)).toMatchObject({ problems: { [field]: expect.any(String) } });
	}
	expect((await browser.learner())!.name).toBe('Ann');
	expect(await deleteAccount(await browser.arrive(), { password, sure: 'yes' })).toEqual(done);
	expect(await browser.learner()).toBeNull();
	await signedUp('Ann');
});

it('every zone in the list is one that can be kept', () => {
	expect(zones.length).toBeGreaterThan(300);
	for (const zone of zones) expect(zoneOf(zone), zone).not.toBeNull();
	for (const zone of ['Europe/London', 'America/St_Johns', 'Australia/Lord_Howe', 'UTC']) expect(zoneOf(zone)).toBe(zone);
});
