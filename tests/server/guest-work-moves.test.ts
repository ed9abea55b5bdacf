/** A guest who signs in: what cannot be doubled in one account is settled at the move. */
import { eq } from 'drizzle-orm';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { learnerOrGuest, signIn, signUp } from '$lib/server/accounts/index.ts';
import { closeDatabase, database } from '$lib/server/database/open.ts';
import { learner, round } from '$lib/server/database/schema.ts';
import { digestOf } from '$lib/server/digest.ts';
import { endReminders, newReminders } from '$lib/server/practice/reminders.ts';
import { Browser } from '../arriving.ts';
import { freshFolder } from './fresh.ts';

const password = 'two short planks';
const noon = Date.UTC(2026, 0, 15, 12);
const minuteMs = 60_000;

beforeEach(() => vi.stubEnv('PROVEWELL_DATA', freshFolder()));
afterEach(closeDatabase);

/** An account, a guest at another browser, and that guest's signing in to it. */
async function accountAndGuest() {
	const own = new Browser();
	await signUp(await own.arrive(), { name: 'Ann', password });
	const browser = new Browser();
	const [account, guest] = [(await own.learner())!, await learnerOrGuest(await browser.arrive())];
	const moves = async () => expect(await signIn(await browser.arrive(), { name: 'Ann', password }, noon)).toEqual({ outcome: 'done' });
	return { account, guest, moves };
}

const add = (id: string, whose: string, created: number, ended: number | null = null) =>
	database()
		.insert(round)
		.values({
			id,
			learner: whose,
			minutes: 20,
			refresher: null,
			created: new Date(created),
			ended: ended === null ? null : new Date(ended)
		})
		.run();
const endedOf = (id: string) => database().select().from(round).where(eq(round.id, id)).get()!.ended?.getTime() ?? null;
const rowOf = (id: string) => database().select().from(learner).where(eq(learner.id, id)).get()!;

describe('of rounds that are open', () => {
	it('the one begun last goes on, whoever began it, and the other is ended then', async () => {
		for (const guestIsLater of [true, false]) {
			const { account, guest, moves } = await accountAndGuest();
			add('own', account.id, noon - 50 * minuteMs);
			add('guests', guest.id, noon - (guestIsLater ? 10 : 90) * minuteMs);
			await moves();
			expect([endedOf('guests'), endedOf('own')]).toEqual(guestIsLater ? [null, noon] : [noon, null]);
			closeDatabase();
			vi.stubEnv('PROVEWELL_DATA', freshFolder());
		}
	});

	it('an older one does not stay open behind one that was shut since, and what was shut stays as it was', async () => {
		const { account, guest, moves } = await accountAndGuest();
		add('guests', guest.id, noon - 90 * minuteMs);
		add('own', account.id, noon - 50 * minuteMs, noon - 20 * minuteMs);
		await moves();
		expect([endedOf('guests'), endedOf('own')]).toEqual([noon, noon - 20 * minuteMs]);
	});
});

describe('the address of the calendar', () => {
	it('goes on to lead to the work, where the account has none', async () => {
		const { account, guest, moves } = await accountAndGuest();
		const secret = newReminders(guest.id);
		await moves();
		expect(rowOf(account.id).calendar).toBe(digestOf(secret));
	});

	it('that the account has stays the account’s', async () => {
		const { account, guest, moves } = await accountAndGuest();
		newReminders(guest.id);
		const secret = newReminders(account.id);
		await moves();
		expect(rowOf(account.id).calendar).toBe(digestOf(secret));
	});

	it('is none where the guest had ended theirs', async () => {
		const { account, guest, moves } = await accountAndGuest();
		newReminders(guest.id);
		endReminders(guest.id);
		await moves();
		expect(rowOf(account.id).calendar).toBeNull();
	});
});

it('the recall at which practice comes back is the account’s, and so is the zone', async () => {
	const { account, guest, moves } = await accountAndGuest();
	database().update(learner).set({ retention: 0.9, zone: 'Asia/Tokyo' }).where(eq(learner.id, account.id)).run();
	database().update(learner).set({ retention: 0.7, zone: 'UTC' }).where(eq(learner.id, guest.id)).run();
	await moves();
	expect(rowOf(account.id)).toMatchObject({ retention: 0.9, zone: 'Asia/Tokyo' });
});
