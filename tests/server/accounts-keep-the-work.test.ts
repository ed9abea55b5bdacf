import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { exportOf, learnerOrGuest, signIn, signUp } from '$lib/server/accounts/index.ts';
import { calloutsIn } from '$lib/server/callouts/callouts.ts';
import { closeDatabase, database } from '$lib/server/database/open.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { Browser } from '../arriving.ts';
import { begun, doSome, freshFolder } from './fresh.ts';

const password = 'two short planks';
const seed = 987_654_321;

beforeEach(() => vi.stubEnv('PROVEWELL_DATA', freshFolder()));
afterEach(closeDatabase);

/** A guest with a callout half played. */
async function playing() {
	const browser = new Browser();
	const guest = await learnerOrGuest(await browser.arrive());
	const callouts = calloutsIn(database(), packs());
	const at = doSome(callouts, guest.id, begun(callouts, guest.id, { seed }), 3);
	return { browser, guest, callouts, at };
}

it('a callout begun as a guest is played on after signing up', async () => {
	const { browser, callouts, at } = await playing();
	await signUp(await browser.arrive(), { name: 'Ann', password });
	const { id } = (await browser.learner())!;
	expect(callouts.load(at.attemptId, id)).toEqual(at);
	expect(doSome(callouts, id, at, 1).seq).toBe(at.seq + 1);
});

it('a callout begun as a guest is played on after signing in, by the same server and by one started later, and is the guest’s no more', async () => {
	await signUp(await new Browser().arrive(), { name: 'Ann', password });
	const { browser, guest, callouts, at } = await playing();
	await signIn(await browser.arrive(), { name: 'Ann', password });
	const { id } = (await browser.learner())!;
	expect(id).not.toBe(guest.id);
	for (const service of [callouts, calloutsIn(database(), packs())]) expect(service.load(at.attemptId, id)).toEqual(at);
	expect(doSome(callouts, id, at, 1).seq).toBe(at.seq + 1);
	expect(callouts.load(at.attemptId, guest.id)).toBeNull();
});

it('work done in an account stays there when somebody else signs in at the same browser', async () => {
	for (const name of ['Ann', 'Ben']) await signUp(await new Browser().arrive(), { name, password });
	const browser = new Browser();
	await signIn(await browser.arrive(), { name: 'Ann', password });
	const ann = (await browser.learner())!;
	const callouts = calloutsIn(database(), packs());
	const at = begun(callouts, ann.id);
	await signIn(await browser.arrive(), { name: 'Ben', password });
	expect(callouts.load(at.attemptId, (await browser.learner())!.id)).toBeNull();
	expect(callouts.load(at.attemptId, ann.id)).toEqual(at);
});

it('the export holds each action, and the seed and the fault of a callout only once it has ended', async () => {
	const { guest, callouts, at } = await playing();
	const fault = [...packs().values()][0]!.faults[0]!.id;
	const hidden = begun(callouts, guest.id, { seed: seed + 1, fault });
	const exported = () => [...exportOf(guest.id, { theme: 'dark' })].join('');
	const running = exported();
	expect(running).not.toContain(String(seed));
	expect(running).not.toMatch(/"(seed|fault)"/);
	expect(JSON.parse(running)).toMatchObject({ account: { guest: true, zone: guest.zone }, settings: { theme: 'dark' } });
	expect(JSON.parse(running).attempts.map(({ actions }: { actions: object[] }) => actions.length)).toEqual([3, 0]);

	for (const { attemptId, seq } of [at, hidden]) callouts.act(attemptId, guest.id, { kind: 'leave', told: [] }, seq);
	const { attempts } = JSON.parse(exported());
	expect(attempts).toMatchObject([
		{ id: at.attemptId, seed, fault: null },
		{ id: hidden.attemptId, seed: seed + 1, fault }
	]);
	expect(attempts[0].actions.map(({ kind }: { kind: string }) => kind)).toEqual(['demand', 'check', 'check', 'leave']);
});
