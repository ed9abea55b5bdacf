/** While a password is being looked at, the account is changed or deleted from another browser. */
import * as argon2 from '@node-rs/argon2';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { changePassword, deleteAccount, learnerOrGuest, signIn, signUp } from '$lib/server/accounts/index.ts';
import { closeDatabase, database } from '$lib/server/database/open.ts';
import { Browser } from '../arriving.ts';
import { freshFolder } from '../server/fresh.ts';
import { countRows } from '../server/someones-rows.ts';

const real = vi.hoisted(() => ({}) as Pick<typeof argon2, 'verify' | 'hash'>);
vi.mock('@node-rs/argon2', async (original) => {
	Object.assign(real, await original<typeof argon2>());
	return { ...real, verify: vi.fn(real.verify), hash: vi.fn(real.hash) };
});

const password = 'two short planks';
const newPassword = 'three long planks';
const done = { outcome: 'done' };
const sure = 'yes';

beforeEach(() => vi.stubEnv('PROVEWELL_DATA', freshFolder()));
afterEach(closeDatabase);

async function signedUp(name = 'Ann'): Promise<Browser> {
	const browser = new Browser();
	expect(await signUp(await browser.arrive(), { name, password })).toEqual(done);
	return browser;
}

/** The next looking at a hash has found what it finds, and before it says so this happens. */
function beforeTheNextAnswer(happens: () => Promise<unknown>): void {
	vi.mocked(argon2.verify).mockImplementationOnce(async (...given) => {
		const found = await real.verify(...given);
		await happens();
		return found;
	});
}

const changes = async (browser: Browser) => expect(await changePassword(await browser.arrive(), { password, newPassword })).toEqual(done);
const deletes = async (browser: Browser) => expect(await deleteAccount(await browser.arrive(), { password, sure })).toEqual(done);
const refused = { outcome: 'refused', says: 'That name and that password do not belong together.' };

describe('signing in', () => {
	it('with a password that is the old one by the time it is found right is refused as a wrong one is, and leaves no session', async () => {
		const owner = await signedUp();
		const thief = new Browser();
		const visit = await thief.arrive();
		beforeTheNextAnswer(() => changes(owner));
		expect(await signIn(visit, { name: 'Ann', password })).toEqual(refused);
		expect(visit.locals.learner).toBeNull();
		expect(thief.jar.size).toBe(0);
		expect(countRows(database()).session).toBe(1);
	});

	it('to an account that is gone by then is refused in the same words, and a guest keeps what they have', async () => {
		const owner = await signedUp();
		const browser = new Browser();
		const guest = await learnerOrGuest(await browser.arrive());
		beforeTheNextAnswer(() => deletes(owner));
		expect(await signIn(await browser.arrive(), { name: 'Ann', password })).toEqual(refused);
		expect(await browser.learner()).toEqual(guest);
	});

	it('to an account that is gone and that somebody else has made again by that name is refused as well', async () => {
		const owner = await signedUp();
		const browser = new Browser();
		beforeTheNextAnswer(async () => {
			await deletes(owner);
			await signedUp();
		});
		expect(await signIn(await browser.arrive(), { name: 'Ann', password })).toEqual(refused);
		expect(await browser.learner()).toBeNull();
	});
});

describe('a change of password', () => {
	it('by the old password is refused where another was first, and does not undo that one', async () => {
		const [owner, other] = [await signedUp(), new Browser()];
		await signIn(await other.arrive(), { name: 'Ann', password });
		const visit = await other.arrive();
		beforeTheNextAnswer(() => changes(owner));
		expect(await changePassword(visit, { password, newPassword: 'of the one who was late' })).toEqual({
			outcome: 'refused',
			problems: { password: 'This is not your password.' }
		});
		expect(await signIn(await new Browser().arrive(), { name: 'Ann', password: newPassword })).toEqual(done);
		expect((await owner.learner())?.name).toBe('Ann');
	});

	it('is refused as well where the other comes while the new one is being hashed', async () => {
		const [owner, other] = [await signedUp(), new Browser()];
		await signIn(await other.arrive(), { name: 'Ann', password });
		const visit = await other.arrive();
		vi.mocked(argon2.hash).mockImplementationOnce(async (...given) => {
			await changes(owner);
			return real.hash(...given);
		});
		expect(await changePassword(visit, { password, newPassword: 'of the one who was late' })).toMatchObject({ outcome: 'refused' });
		expect(await signIn(await new Browser().arrive(), { name: 'Ann', password: newPassword })).toEqual(done);
	});

	it('of an account that is gone by then is refused', async () => {
		const [owner, other] = [await signedUp(), new Browser()];
		await signIn(await other.arrive(), { name: 'Ann', password });
		const visit = await other.arrive();
		beforeTheNextAnswer(() => deletes(owner));
		expect(await changePassword(visit, { password, newPassword })).toEqual({
			outcome: 'refused',
			says: 'You are not signed in to an account.'
		});
	});
});

it('a deletion by the old password is refused, and the account stays', async () => {
	const [owner, other] = [await signedUp(), new Browser()];
	await signIn(await other.arrive(), { name: 'Ann', password });
	const visit = await other.arrive();
	beforeTheNextAnswer(() => changes(owner));
	expect(await deleteAccount(visit, { password, sure })).toEqual({
		outcome: 'refused',
		problems: { password: 'This is not your password.' }
	});
	expect((await owner.learner())?.name).toBe('Ann');
});
