import * as argon2 from '@node-rs/argon2';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { changePassword, deleteAccount, learnerOrGuest, signIn, signUp } from '$lib/server/accounts/index.ts';
import { mostTries } from '$lib/server/accounts/limits.ts';
import { closeDatabase, database } from '$lib/server/database/open.ts';
import { Browser } from '../arriving.ts';
import { freshFolder } from '../server/fresh.ts';
import { countRows, rowsOf, tablesIn } from '../server/someones-rows.ts';

vi.mock('@node-rs/argon2', async (original) => {
	const real = await original<typeof argon2>();
	return { ...real, verify: vi.fn(real.verify) };
});

const password = 'two short planks';
const done = { outcome: 'done' };
const minuteMs = 60_000;
const noon = Date.UTC(2026, 0, 15, 12);

beforeEach(() => vi.stubEnv('PROVEWELL_DATA', freshFolder()));
afterEach(() => {
	closeDatabase();
	vi.mocked(argon2.verify).mockClear();
});

async function signedUp(name: string, browser = new Browser()): Promise<Browser> {
	expect(await signUp(await browser.arrive(), { name, password })).toEqual(done);
	return browser;
}
const tryIn = async (name: string, word: string, now: number, browser = new Browser()) =>
	signIn(await browser.arrive(), { name, password: word }, now);

describe('a session planted in a browser', () => {
	it('is of no use once its bearer has signed up', async () => {
		const attacker = new Browser();
		await learnerOrGuest(await attacker.arrive());
		const victim = new Browser();
		victim.jar.set('session', attacker.jar.get('session')!);
		await signedUp('Ann', victim);
		expect(victim.jar.get('session')).not.toBe(attacker.jar.get('session'));
		expect((await victim.learner())!.name).toBe('Ann');
		expect(await attacker.learner()).toBeNull();
	});

	it('is of no use once its bearer has signed in', async () => {
		await signedUp('Ann');
		await signedUp('Mallory');
		for (const begin of [learnerOrGuest, async (visit: Parameters<typeof signIn>[0]) => signIn(visit, { name: 'Mallory', password })]) {
			const attacker = new Browser();
			await begin(await attacker.arrive());
			const victim = new Browser();
			victim.jar.set('session', attacker.jar.get('session')!);
			expect(await tryIn('Ann', password, noon, victim)).toEqual(done);
			expect((await victim.learner())!.name).toBe('Ann');
			expect(await attacker.learner()).toBeNull();
		}
	});

	it('is nothing that the server ever takes over: an id that it did not make is forgotten', async () => {
		for (const id of ['', 'made-up', '0'.repeat(40), "' or 1=1 --", '\u0000', 'x'.repeat(100_000), '../../etc', '%00']) {
			const browser = new Browser();
			browser.jar.set('session', id);
			expect(await browser.learner()).toBeNull();
			await signedUp(`Ann ${[...browser.jar].length} ${id.length}`, browser);
			expect(browser.jar.get('session')).not.toBe(id);
		}
	});
});

describe('what stands in the database', () => {
	it('opens no session', async () => {
		const browser = await signedUp('Ann');
		const [{ id }] = rowsOf(database(), 'session') as [{ id: string }];
		const thief = new Browser();
		thief.jar.set('session', id);
		expect(await thief.learner()).toBeNull();
		const text = JSON.stringify(tablesIn(database()).map((table) => rowsOf(database(), table)));
		expect(text).not.toContain(browser.jar.get('session'));
		expect(text).not.toContain(password);
	});

	it('opens none either when it is over', async () => {
		const browser = await signedUp('Ann');
		database().$client.exec('update session set expires_at = 1');
		expect(await browser.learner()).toBeNull();
		expect(browser.jar.size).toBe(0);
	});
});

describe('who has an account', () => {
	it('is not told by signing in: the same words, after the same looking at a hash', async () => {
		await signedUp('Ann');
		const answers = [];
		for (const name of ['Ann', 'Nobody']) {
			vi.mocked(argon2.verify).mockClear();
			answers.push(await tryIn(name, 'not the password', noon));
			expect(argon2.verify).toHaveBeenCalledTimes(1);
			const [[against, given]] = vi.mocked(argon2.verify).mock.calls as [[string, string]];
			expect(given).toBe('not the password');
			// As dear for one as for the other.
			expect(argon2.parseOptions(against)).toMatchObject({ memoryCost: 19_456, timeCost: 2, parallelism: 1 });
		}
		expect(answers[0]).toMatchObject({ outcome: 'refused', says: expect.any(String) });
		expect(answers[1]).toEqual(answers[0]);
	});

	it('is not told by the limit: it comes as soon, in the same words', async () => {
		await signedUp('Ann');
		for (let turn = 0; turn <= mostTries.name; turn++) {
			const answers = [];
			for (const [n, name] of ['Ann', 'Nobody'].entries()) {
				answers.push(await tryIn(name, 'not the password', noon + turn, new Browser(undefined, `192.0.2.${10 + n}`)));
			}
			expect(answers[1]).toEqual(answers[0]);
		}
	});

	it('is told by signing up no faster than passwords can be tried', async () => {
		await signedUp('Ann');
		const ask = async (name: string) => signUp(await new Browser().arrive(), { name, password }, undefined, noon);
		for (let n = 0; n < mostTries.address; n++)
			expect(await ask('Ann')).toMatchObject({ problems: { name: expect.stringContaining('taken') } });
		for (const name of ['Ann', 'Somebody new'])
			expect(await ask(name)).toEqual({ outcome: 'refused', says: 'Too many tries. Try again in 15 minutes.' });
	});
});

describe('guessing passwords', () => {
	it('of one name stops at the limit, from wherever it is tried, and the right one does not get through either', async () => {
		await signedUp('Ann');
		for (let n = 0; n < mostTries.name; n++) {
			const answer = await tryIn('Ann', `guess number ${n}`, noon + n * minuteMs, new Browser(undefined, `198.51.100.${n}`));
			expect(answer).toMatchObject({ outcome: 'refused', says: expect.not.stringContaining('Too many') });
		}
		const limited = await tryIn('ANN', password, noon + 5 * minuteMs, new Browser(undefined, '203.0.113.9'));
		expect(limited).toEqual({ outcome: 'refused', says: 'Too many tries. Try again in 10 minutes.' });
		// Nor is a password looked at, once the limit stands.
		expect(argon2.verify).toHaveBeenCalledTimes(mostTries.name);
		expect(await tryIn('Ann', password, noon + 15 * minuteMs - 1)).toMatchObject({ says: 'Too many tries. Try again in 1 minute.' });
		expect(await tryIn('Ann', password, noon + 15 * minuteMs)).toEqual(done);
	});

	it('slides: one more try for each that is a quarter of an hour old', async () => {
		for (let n = 0; n < mostTries.name; n++) await tryIn('Ann', 'a guess', noon + n * minuteMs);
		const later = noon + 15 * minuteMs;
		expect(await tryIn('Ann', 'a guess', later)).toMatchObject({ says: expect.not.stringContaining('Too many') });
		expect(await tryIn('Ann', 'a guess', later)).toMatchObject({ says: 'Too many tries. Try again in 1 minute.' });
	});

	it('of many names stops at the limit of the address, and leaves others alone', async () => {
		await signedUp('Ann');
		for (let n = 0; n < mostTries.address; n++) await tryIn(`Name ${n}`, 'a guess', noon);
		expect(await tryIn('Ann', password, noon)).toMatchObject({ says: expect.stringContaining('Too many tries') });
		expect(await tryIn('Ann', password, noon, new Browser(undefined, '198.51.100.7'))).toEqual(done);
	});

	it('is not helped by moving within one network of the newer kind of address, nor by writing an address another way', async () => {
		const addresses = (n: number) => [`2001:db8:0:1::${n.toString(16)}`, `2001:0DB8:0:1:${n}::1`, `2001:db8::1:${n}:0:0:9`][n % 3]!;
		for (let n = 0; n < mostTries.address; n++) await tryIn(`Name ${n}`, 'a guess', noon, new Browser(undefined, addresses(n)));
		expect(await tryIn('A name', 'a guess', noon, new Browser(undefined, '2001:db8:0:1:ffff::'))).toMatchObject({
			says: expect.stringContaining('Too many')
		});
		expect(await tryIn('A name', 'a guess', noon, new Browser(undefined, '2001:db8:0:2::1'))).toMatchObject({
			says: expect.not.stringContaining('Too many')
		});
		for (let n = 0; n < mostTries.address; n++) await tryIn(`Other ${n}`, 'a guess', noon, new Browser(undefined, '::ffff:192.0.2.77'));
		expect(await tryIn('Another', 'a guess', noon, new Browser(undefined, '192.0.2.77'))).toMatchObject({
			says: expect.stringContaining('Too many')
		});
	});

	it('a hundred at once are no way around', async () => {
		await signedUp('Ann');
		const guesses = Array.from({ length: 100 }, async (_, n) =>
			tryIn('Ann', `guess number ${n}`, noon, new Browser(undefined, `198.51.100.${n}`))
		);
		const limited = (await Promise.all(guesses)).filter((answer) => 'says' in answer && answer.says?.startsWith('Too many'));
		expect(limited).toHaveLength(100 - mostTries.name);
	});

	it('at a browser that is left signed in meets the same limit', async () => {
		const browser = await signedUp('Ann');
		const guess = async (n: number) =>
			n % 2
				? changePassword(await browser.arrive(), { password: `guess ${n}`, newPassword: 'a newer password' }, noon)
				: deleteAccount(await browser.arrive(), { password: `guess ${n}`, sure: 'yes' }, noon);
		for (let n = 0; n < mostTries.name; n++) expect(await guess(n)).toMatchObject({ problems: { password: expect.any(String) } });
		for (const n of [0, 1]) expect(await guess(n)).toMatchObject({ says: expect.stringContaining('Too many tries') });
		expect((await browser.learner())!.name).toBe('Ann');
	});

	it('is forgiven to whoever knows the password, and others behind the same address stay counted', async () => {
		await signedUp('Ann');
		for (let round = 0; round < 3; round++) {
			for (let n = 1; n < mostTries.name; n++) await tryIn('Ann', 'mistyped', noon);
			expect(await tryIn('Ann', password, noon)).toEqual(done);
		}
		// Four a round stand of the address's twenty.
		for (let n = 3 * (mostTries.name - 1); n < mostTries.address; n++) await tryIn(`Name ${n}`, 'a guess', noon);
		expect(await tryIn('Ann', password, noon)).toMatchObject({ says: expect.stringContaining('Too many tries') });
	});

	it('leaves nothing behind after the quarter of an hour', async () => {
		for (let n = 0; n < 4; n++) await tryIn(`Name ${n}`, 'a guess', noon);
		expect(JSON.stringify(rowsOf(database(), 'failed_sign_in'))).not.toMatch(/Name|name:|192\.0/i);
		await tryIn('Later', 'a guess', noon + 15 * minuteMs);
		expect(countRows(database()).failed_sign_in).toBe(2);
	});
});

describe('fields far too long', () => {
	const book = 'x'.repeat(400_000);

	it('are turned away before anything is hashed', async () => {
		const fields = [
			[{ name: book, password }, 'name'],
			[{ name: 'Ann', password: book }, 'password'],
			[{ name: 'Ann', password: '\u0300'.repeat(400_000) }, 'password'],
			[{ name: '\ufdfa'.repeat(40), password }, 'name'],
			[{ name: `A${'\u0300'.repeat(40)}`, password }, 'name']
		] as const;
		for (const [field, name] of fields) {
			expect(await signUp(await new Browser().arrive(), field)).toMatchObject({ problems: { [name]: expect.any(String) } });
		}
		expect(await signIn(await new Browser().arrive(), { name: 'Ann', password: book })).toMatchObject({
			problems: { password: expect.any(String) }
		});
		expect(await signIn(await new Browser().arrive(), { name: book, password })).toMatchObject({ problems: { name: expect.any(String) } });
		expect(argon2.verify).not.toHaveBeenCalled();
	});

	it('and fields of another kind as well', async () => {
		for (const odd of [null, 7, [], {}, new File(['x'], 'name')]) {
			expect(await signUp(await new Browser().arrive(), { name: odd, password })).toMatchObject({ problems: { name: 'Choose a name.' } });
			expect(await signIn(await new Browser().arrive(), { name: 'Ann', password: odd })).toMatchObject({
				problems: { password: expect.any(String) }
			});
		}
		for (const odd of [undefined, null, 'text', []]) expect((await signIn(await new Browser().arrive(), odd)).outcome).toBe('refused');
	});
});
