import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { learnerOrGuest, recogniseLearner } from '$lib/server/accounts.ts';
import { closeDatabase, database } from '$lib/server/database/open.ts';
import { freshFolder } from './fresh.ts';

/** What a browser keeps, and with which options. */
function browserAt(url: string, jar = new Map<string, string>()) {
	const options = new Map<string, object>();
	const visit = {
		url: new URL(url),
		locals: { learner: null },
		cookies: {
			get: (name: string) => jar.get(name),
			set: (name: string, value: string, given: object) => void (jar.set(name, value), options.set(name, given)),
			delete: (name: string) => void jar.delete(name)
		}
	};
	return { visit, jar, options };
}

beforeEach(() => vi.stubEnv('PROVEWELL_DATA', freshFolder()));
afterEach(closeDatabase);

describe('a guest', () => {
	it('is made once and known again by the cookie', async () => {
		const { visit, jar } = browserAt('http://localhost/');
		expect(await recogniseLearner(visit)).toBeNull();
		const guest = await learnerOrGuest(visit);
		expect(await learnerOrGuest(visit)).toEqual(guest);
		expect(await recogniseLearner(browserAt('http://localhost/', jar).visit)).toMatchObject({ id: guest.id, guest: true });
	});

	it('has a cookie out of reach of scripts and other sites, and secure only over https', async () => {
		for (const [url, secure] of [
			['http://localhost/', false],
			['https://example.org/', true]
		] as const) {
			const { visit, options } = browserAt(url);
			await learnerOrGuest(visit);
			expect([...options.values()]).toEqual([expect.objectContaining({ httpOnly: true, sameSite: 'lax', secure, path: '/' })]);
		}
	});

	it('is forgotten when the session is over or made up', async () => {
		const { visit, jar } = browserAt('http://localhost/');
		await learnerOrGuest(visit);
		database().$client.exec('update session set expires_at = 1');
		expect(await recogniseLearner(browserAt('http://localhost/', jar).visit)).toBeNull();
		expect(jar.size).toBe(0);
		expect(await recogniseLearner(browserAt('http://localhost/', new Map([['session', 'made-up']])).visit)).toBeNull();
	});
});
