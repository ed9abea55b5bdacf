/** What others do wrong, or leave out, keeps nobody from their own account. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { changePassword, deleteAccount, signIn, signUp } from '$lib/server/accounts/index.ts';
import { mostTries } from '$lib/server/accounts/limits.ts';
import { closeDatabase } from '$lib/server/database/open.ts';
import { log } from '$lib/server/log.ts';
import { Browser } from '../arriving.ts';
import { freshFolder } from '../server/fresh.ts';

const password = 'two short planks';
const newPassword = 'three long planks';
const done = { outcome: 'done' };
const noon = Date.UTC(2026, 0, 15, 12);

beforeEach(() => vi.stubEnv('PROVEWELL_DATA', freshFolder()));
afterEach(closeDatabase);

async function signedUp(name: string): Promise<Browser> {
	const browser = new Browser();
	expect(await signUp(await browser.arrive(), { name, password }, undefined, noon)).toEqual(done);
	return browser;
}

it('somebody who tries a name until it is shut does not shut its owner out of changing the password and of deleting the account', async () => {
	const ann = await signedUp('Ann');
	const tryIn = async (n: number) =>
		signIn(await new Browser(undefined, `198.51.100.${n}`).arrive(), { name: 'Ann', password: 'a guess' }, noon);
	for (let n = 0; n < mostTries.name; n++) await tryIn(n);
	expect(await tryIn(99)).toMatchObject({ says: expect.stringContaining('Too many') });
	expect(await changePassword(await ann.arrive(), { password, newPassword }, noon)).toEqual(done);
	// It was not the one who tried that showed to be the owner.
	expect(await tryIn(98)).toMatchObject({ says: expect.stringContaining('Too many') });
	expect(await deleteAccount(await ann.arrive(), { password: newPassword, sure: 'yes' }, noon)).toEqual(done);
});

it('the tries at an open browser are counted for that account alone, also where it bears the name no more that it bore', async () => {
	const [ann, ben] = [await signedUp('Ann'), await signedUp('Ben')];
	const guess = async () => changePassword(await ann.arrive(), { password: 'a guess', newPassword }, noon);
	for (let n = 0; n < mostTries.name; n++) await guess();
	expect(await guess()).toMatchObject({ says: expect.stringContaining('Too many') });
	expect(await changePassword(await ben.arrive(), { password, newPassword }, noon)).toEqual(done);
	expect(await signIn(await new Browser(undefined, '198.51.100.7').arrive(), { name: 'Ann', password }, noon)).toEqual(done);
});

describe('where the proxy does not name the address', () => {
	const nameless = async (browser: Browser) => ({
		...(await browser.arrive()),
		getClientAddress(): string {
			throw new Error('Address header was specified with ADDRESS_HEADER=x-real-ip but is absent from request');
		}
	});

	it('signing up, signing in, changing and deleting go on, all such visitors are counted together, and the log says so once', async () => {
		const warned = vi.spyOn(log, 'warn').mockImplementation(() => undefined);
		const ann = new Browser();
		expect(await signUp(await nameless(ann), { name: 'Ann', password }, undefined, noon)).toEqual(done);
		expect(await signIn(await nameless(new Browser()), { name: 'Ann', password }, noon)).toEqual(done);
		expect(await changePassword(await nameless(ann), { password, newPassword }, noon)).toEqual(done);
		for (let n = 0; n < mostTries.address; n++) await signIn(await nameless(new Browser()), { name: `Name ${n}`, password }, noon);
		expect(await signIn(await nameless(new Browser()), { name: 'Another', password }, noon)).toMatchObject({
			says: expect.stringContaining('Too many')
		});
		expect(await signIn(await new Browser().arrive(), { name: 'Ann', password: newPassword }, noon)).toEqual(done);
		expect(warned).toHaveBeenCalledTimes(1);
		warned.mockRestore();
	});
});
