import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { eq } from 'drizzle-orm';
import { deleteAccount, exportOf, ownAccount, signIn, signUp } from '$lib/server/accounts/index.ts';
import { calloutsIn } from '$lib/server/callouts/callouts.ts';
import { closeDatabase, database } from '$lib/server/database/open.ts';
import {
	action,
	attempt,
	cohortAssessor,
	drill,
	learner,
	member,
	paper,
	session,
	sitting,
	sittingItem
} from '$lib/server/database/schema.ts';
import { reviewLogIn } from '$lib/server/database/review-log.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { beginSitting, closeSitting } from '$lib/server/sittings/sittings.ts';
import { Browser } from '../arriving.ts';
import { addAccount, firstPack, hourMs, joinCohort, makeCohort, makePaper, minuteMs } from '../papers.ts';
import { freshFolder } from './fresh.ts';
import { fillAllTables } from './someones-rows.ts';

const password = 'two short planks';
const now = Date.now();

beforeEach(() => vi.stubEnv('PROVEWELL_DATA', freshFolder()));
afterEach(closeDatabase);

/** An account with rows of every kind, which sat a paper of one callout and left that. */
async function sat() {
	const db = database();
	const browser = new Browser();
	await signUp(await browser.arrive(), { name: 'Ann', password, email: 'ann@example.org' });
	const { id } = (await browser.learner())!;
	fillAllTables(db, id, 'anns');
	const cohort = makeCohort(db, { assessor: addAccount(db, 'Keeper', 'assessor') });
	const other = makeCohort(db, { assessor: addAccount(db, 'Other keeper', 'assessor') });
	db.insert(cohortAssessor)
		.values({ cohort: other, assessor: id, since: new Date(now) })
		.run();
	const memberId = joinCohort(db, cohort, id, { name: 'Ann of the register' });
	const begun = beginSitting(db, makePaper(db, { cohort, now }), { learner: id, seat: 's' }, now);
	if (begun.outcome !== 'begun') throw new Error(begun.outcome);
	const callouts = calloutsIn(db, packs());
	const { fault, seed } = { fault: firstPack().faults[0]!.id, seed: 40 };
	const started = callouts.start(id, { family: firstPack().family.id, fault, seed }, now);
	if (started.outcome !== 'started') throw new Error(started.says);
	db.insert(sittingItem).values({ sitting: begun.id, slot: 0, attempt: started.attemptId }).run();
	callouts.act(started.attemptId, id, { kind: 'leave', told: [] }, 0, now + minuteMs);
	closeSitting(db, begun.id, 'handed-in', now + 2 * minuteMs, { mark: () => undefined });
	return { db, browser, id, memberId, sittingId: begun.id, attemptId: started.attemptId };
}

it('an account with which a paper was sat is emptied: what was played in it stays, under the register’s name, and nothing else', async () => {
	const { db, browser, id, memberId, sittingId, attemptId } = await sat();
	expect(ownAccount(id)).toMatchObject({ hasSat: true });
	const later = now + 4 * hourMs;
	expect(await deleteAccount(await browser.arrive(), { password, sure: 'yes' }, later)).toEqual({ outcome: 'done' });
	const row = db.select().from(learner).where(eq(learner.id, id)).get()!;
	expect(row).toMatchObject({
		name: null,
		nameKey: null,
		email: null,
		password: null,
		calendar: null,
		role: 'learner',
		gone: new Date(later)
	});
	expect(db.select().from(attempt).where(eq(attempt.learner, id)).all()).toMatchObject([{ id: attemptId }]);
	expect(db.select().from(action).where(eq(action.attempt, attemptId)).all()).toHaveLength(1);
	expect(db.select().from(drill).where(eq(drill.learner, id)).all()).toEqual([]);
	expect(db.select().from(member).where(eq(member.id, memberId)).get()).toMatchObject({ name: 'Ann of the register', learner: null });
	expect(db.select().from(sitting).all()).toMatchObject([{ id: sittingId, endedBy: 'handed-in' }]);
	expect(db.select().from(session).where(eq(session.userId, id)).all()).toEqual([]);
	expect(db.select().from(cohortAssessor).where(eq(cohortAssessor.assessor, id)).all()).toEqual([]);
	for (const table of ['review', 'memory', 'round', 'fit']) {
		expect(db.$client.prepare(`select count(*) as count from ${table} where learner = ?`).get(id), table).toEqual({ count: 0 });
	}
	expect(JSON.stringify(db.$client.prepare('select * from learner').all())).not.toMatch(/ann@|"Ann"/i);
	// Nothing of it goes into a log later, and nobody can be it.
	expect(reviewLogIn(db).unreviewed(now + 1e9)).not.toContain(attemptId);
	expect((await signIn(await new Browser().arrive(), { name: 'Ann', password }, now)).outcome).toBe('refused');
	const again = new Browser();
	expect(await signUp(await again.arrive(), { name: 'Ann', password })).toEqual({ outcome: 'done' });
	expect((await again.learner())!.id).not.toBe(id);
});

it('an account is not deleted while a paper that it sat is open, whose window says from when on; that would buy another attempt', async () => {
	const { db, browser, id } = await sat();
	const deleted = async (at: number) => deleteAccount(await browser.arrive(), { password, sure: 'yes' }, at);
	const closes = db.select().from(paper).get()!.closes!;
	expect(await deleted(now + 3 * minuteMs)).toMatchObject({
		outcome: 'refused',
		says: expect.stringMatching(/another attempt.* can be deleted from /)
	});
	expect(await deleted(closes.getTime() - 1)).toMatchObject({ outcome: 'refused' });
	expect(db.select().from(learner).where(eq(learner.id, id)).get()!.name).toBe('Ann');
	expect(await deleted(closes.getTime())).toEqual({ outcome: 'done' });
});

it('an account is not deleted in the middle of a practice paper either, and is once it is handed in', async () => {
	const { db, browser, sittingId } = await sat();
	const deleted = async (at: number) => deleteAccount(await browser.arrive(), { password, sure: 'yes' }, at);
	db.update(paper).set({ mode: 'practice' }).run();
	db.update(sitting).set({ ended: null, endedBy: null }).where(eq(sitting.id, sittingId)).run();
	expect(await deleted(now + 3 * minuteMs)).toMatchObject({ outcome: 'refused' });
	closeSitting(db, sittingId, 'handed-in', now + 4 * minuteMs, { mark: () => undefined });
	expect(await deleted(now + 5 * minuteMs)).toEqual({ outcome: 'done' });
});

it('its export tells of a paper without what must not be told yet', async () => {
	const { id, attemptId } = await sat();
	const exported = (at: number) =>
		JSON.parse([...exportOf(id, {}, at)].join('')) as { attempts: { id: string }[]; papers: { sittings: object[] }[] };
	const [held, told] = [now + 3 * minuteMs, now + 1e9].map(exported);
	const ofPaper = (one: typeof held) => one!.attempts.find(({ id }) => id === attemptId);
	expect(ofPaper(held)).not.toHaveProperty('seed');
	expect(ofPaper(held)).not.toHaveProperty('fault');
	expect(ofPaper(told)).toMatchObject({ seed: 40, fault: firstPack().faults[0]!.id });
	expect(held!.papers).toMatchObject([{ name: 'Ann of the register', sittings: [{ number: 1, endedBy: 'handed-in' }] }]);
	expect(JSON.stringify(held!.papers)).not.toContain('variant');
});
