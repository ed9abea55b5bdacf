import { and, eq } from 'drizzle-orm';
import { afterEach, beforeEach, describe, expect, it, onTestFinished, vi } from 'vitest';
import { deleteAccount, signUp } from '$lib/server/accounts/index.ts';
import { giveRole } from '$lib/server/accounts/people.ts';
import { auditOf } from '$lib/server/audit/audit.ts';
import { nameKeeper, onlyKeeper, toKeep } from '$lib/server/cohorts/keepers.ts';
import { closeDatabase, database, openDatabase, type Database } from '$lib/server/database/open.ts';
import { cohort, cohortAssessor, learner, member, sitting } from '$lib/server/database/schema.ts';
import { lockAll, lockSheet } from '$lib/server/sheets/moderation.ts';
import { paperSheet, papersOf } from '$lib/server/sittings/learners-papers.ts';
import { beginSitting } from '$lib/server/sittings/sittings.ts';
import { Browser } from '../arriving.ts';
import { addAccount, joinCohort, makeCohort, makePaper } from '../papers.ts';
import { sit } from '../sat.ts';
import { freshFolder } from './fresh.ts';
import { marked } from './mark-scene.ts';

const now = Date.now();
const refused = (says: RegExp) => ({ outcome: 'refused', says: expect.stringMatching(says) });

function fresh(): Database {
	const db = openDatabase(freshFolder());
	onTestFinished(() => void db.$client.close());
	return db;
}
const keep = (db: Database, cohortId: string, assessor: string) =>
	db
		.insert(cohortAssessor)
		.values({ cohort: cohortId, assessor, since: new Date(now) })
		.run();

beforeEach(() => vi.stubEnv('PROVEWELL_DATA', freshFolder()));
afterEach(closeDatabase);

describe('whoever keeps a cohort', () => {
	it('does not sit its papers, also where they are on its register', () => {
		const db = fresh();
		const [keeper, other] = [addAccount(db, 'Kay', 'assessor'), addAccount(db, 'Other', 'assessor')];
		const id = makeCohort(db, { assessor: keeper });
		for (const one of [keeper, other]) joinCohort(db, id, one);
		const paper = makePaper(db, { cohort: id, now });
		const begin = (who: string) => beginSitting(db, paper, { learner: who, seat: 's' }, now);
		expect(begin(keeper)).toMatchObject(refused(/You keep this cohort/));
		expect(db.select().from(sitting).all()).toEqual([]);
		const reader = { id: keeper, zone: 'UTC' };
		expect(papersOf(reader, now, db).open).toEqual([]);
		expect(paperSheet(paper, reader, now, db)!.refused).toMatch(/You keep this cohort/);
		// An assessor of other cohorts is a learner here as anybody is.
		expect(begin(other).outcome).toBe('begun');
	});

	it('changes, seconds, locks and unlocks nothing of a sheet of their own', async () => {
		const one = await marked();
		const own = (who: string) => one.db.update(member).set({ learner: who }).where(eq(member.id, mine)).run();
		const mine = one.db.select().from(sitting).where(eq(sitting.id, one.id)).get()!.member;
		const second = sit(one.db, one);
		await one.marking.mark(second);
		own(one.assessor);
		const wanted = { slot: '0', criterion: 'parts', seen: '0', mark: '12', reason: 'It looks better so' };
		const theirs = refused(/your own sheet/);
		expect(one.sheets.change(one.assessor, one.at, wanted)).toMatchObject(theirs);
		expect(one.sheets.second(one.assessor, one.at, { agrees: 'yes', note: 'All of it is right' })).toMatchObject(theirs);
		expect(lockSheet(one.db, one.assessor, one.at, true)).toMatchObject(theirs);
		expect(lockAll(one.db, one.assessor, one.at)).toEqual({ outcome: 'done', locked: 1, left: 1 });
		expect(lockSheet(one.db, one.colleague, one.at, false)).toEqual({ outcome: 'done' });
		expect(one.sheets.unlock(one.assessor, one.at, 'It was not well marked')).toMatchObject(theirs);
		expect(one.db.select().from(sitting).where(eq(sitting.id, one.id)).get()!.lockedBy).toBe(one.colleague);
	});
});

describe('the only keeper of a cohort', () => {
	it('keeps their role until somebody else keeps it too, and is told of which cohorts', () => {
		const db = fresh();
		const [owner, kay, lee] = [addAccount(db, 'Olive', 'owner'), addAccount(db, 'Kay', 'assessor'), addAccount(db, 'Lee', 'assessor')];
		const ids = ['Mondays', 'Tuesdays'].map((name) => makeCohort(db, { name, assessor: kay }));
		expect(giveRole(owner, kay, 'learner', now, db)).toMatchObject(
			refused(/^Kay is the only one who keeps the cohorts Mondays and Tuesdays\./)
		);
		// Another who is no assessor any more is no keeper.
		for (const id of ids) keep(db, id, lee);
		db.update(learner).set({ role: 'learner' }).where(eq(learner.id, lee)).run();
		expect(giveRole(owner, kay, 'author', now, db)).toMatchObject(refused(/only one/));
		db.update(learner).set({ role: 'assessor' }).where(eq(learner.id, lee)).run();
		expect(giveRole(owner, kay, 'learner', now, db).outcome).toBe('given');
		expect(giveRole(owner, lee, 'owner', now, db).outcome).toBe('given');
		db.update(cohort).set({ invented: true }).run();
		expect(onlyKeeper(db, lee, { is: 'You are', they: 'you add' })).toBeNull();
	});

	it('has another beside them named by an owner, which the trail tells; a cohort that two keep is left to those', () => {
		const db = fresh();
		const [owner, kay, lee] = [addAccount(db, 'Olive', 'owner'), addAccount(db, 'Kay', 'assessor'), addAccount(db, 'Lee', 'assessor')];
		const pupil = addAccount(db, 'Pupil');
		const [kept, unkept] = [makeCohort(db, { name: 'Kept', assessor: kay }), makeCohort(db, { name: 'Unkept' })];
		expect(toKeep(db).cohorts).toEqual([
			{ id: kept, name: 'Kept', keeper: 'Kay' },
			{ id: unkept, name: 'Unkept', keeper: null }
		]);
		expect(toKeep(db).assessors.map(({ name }) => name)).toEqual(['Kay', 'Lee', 'Olive']);
		for (const keeper of [pupil, 'nobody', undefined])
			expect(nameKeeper(owner, { cohort: kept, keeper }, now, db)).toMatchObject(refused(/Choose an assessor/));
		expect(nameKeeper(owner, { cohort: 'none', keeper: lee }, now, db).outcome).toBe('refused');
		for (const id of [kept, unkept]) expect(nameKeeper(owner, { cohort: id, keeper: lee }, now, db)).toEqual({ outcome: 'done' });
		expect(auditOf(db, lee)).toMatchObject([kept, unkept].map((id) => ({ kind: 'assessor-added', by: owner, cohort: id })));
		expect(nameKeeper(owner, { cohort: kept, keeper: owner }, now, db)).toMatchObject(refused(/two keep it already/));
		expect(giveRole(owner, kay, 'learner', now, db).outcome).toBe('given');
		const rows = and(eq(cohortAssessor.cohort, unkept), eq(cohortAssessor.assessor, lee));
		expect(db.select().from(cohortAssessor).where(rows).all()).toHaveLength(1);
	});

	it('does not delete the account before', async () => {
		const password = 'two short planks';
		const browser = new Browser();
		await signUp(await browser.arrive(), { name: 'Kay', password });
		const { id } = (await browser.learner())!;
		const db = database();
		db.update(learner).set({ role: 'assessor' }).where(eq(learner.id, id)).run();
		const kept = makeCohort(db, { name: 'Mondays', assessor: id });
		const sent = { password, sure: 'yes' };
		expect(await deleteAccount(await browser.arrive(), sent, now)).toMatchObject(
			refused(/^You are the only one who keeps the cohort Mondays\./)
		);
		expect(db.select().from(learner).where(eq(learner.id, id)).all()).toHaveLength(1);
		keep(db, kept, addAccount(db, 'Lee', 'assessor'));
		expect(await deleteAccount(await browser.arrive(), sent, now)).toEqual({ outcome: 'done' });
	});
});
