/** The record of practice: sums and no single callout, papers once they may be told, and nobody's to whom it is not shown. */
import { eq } from 'drizzle-orm';
import { describe, expect, it } from 'vitest';
import { database } from '$lib/server/database/open.ts';
import { member, review, sitting, sittingItem } from '$lib/server/database/schema.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { practice } from '$lib/server/practice/practice.ts';
import { recordsOf } from '$lib/server/records/practice-record.ts';
import { addAccount, drillItem, hourMs, joinCohort, makeCohort, makePaper } from '../papers.ts';
import { begun } from './fresh.ts';
import { callouts } from '$lib/server/callouts/callouts.ts';
import { satBy } from './sat-papers.ts';
import { oneServer } from './practice/someone-practised.ts';

oneServer();
const day = 86_400_000;
const anyTime = { from: null, to: null };
const service = () => recordsOf(database(), practice());
let accounts = 0;

/** A learner in a cohort since ten days, with an assessor who keeps it. */
function learner(name = 'Ruth Ashworth') {
	const db = database();
	const assessor = addAccount(db, `Assessor ${++accounts}`, 'assessor');
	const learnerId = addAccount(db, `handle-${accounts}`);
	const cohort = makeCohort(db, { assessor });
	const line = joinCohort(db, cohort, learnerId, { name, joined: new Date(Date.now() - 10 * day) });
	return { assessor, learnerId, cohort, line };
}

/** A callout of the first family that showed these skills, the first its own; so many days ago. @returns the attempt's id */
function shown(
	learnerId: string,
	lines: readonly (readonly [skill: string, recall: 'lost' | 'sound', minutes: number])[],
	ago = 1
): string {
	const { attemptId } = begun(callouts(), learnerId);
	const at = new Date(Date.now() - ago * day);
	for (const [skill, recall, minutes] of lines)
		database().insert(review).values({ learner: learnerId, skill, at, recall, minutes, attempt: attemptId }).run();
	return attemptId;
}

const [family] = packs().keys();
const heat = `${family}/heat-transfer`;
const gas = `${family}/gas`;

describe('practice on the record', () => {
	it('counts each callout once, under its own skill, and the minutes it took', () => {
		const { learnerId } = learner();
		shown(learnerId, [
			[heat, 'sound', 12],
			[gas, 'lost', 0]
		]);
		shown(learnerId, [[heat, 'lost', 8]]);
		const { practice: done } = service().own(learnerId, anyTime, Date.now())!;
		expect(done).toMatchObject({ minutes: 20, days: 1, callouts: [{ name: 'Heat transfer', count: 2, shown: { lost: 1, sound: 1 } }] });
		expect(done!.packs).toEqual([{ family: packs().get(family!)!.family.short, hash: packs().get(family!)!.hash, callouts: 2 }]);
		expect(done!.skills.map(({ shown }) => shown).toSorted()).toEqual(['lost', 'lost']);
	});

	it('leaves out what lies outside the period', () => {
		const { learnerId } = learner();
		shown(learnerId, [[heat, 'sound', 12]], 40);
		shown(learnerId, [[gas, 'sound', 5]], 2);
		const from = new Date(Date.now() - 5 * day).toISOString().slice(0, 10);
		expect(service().own(learnerId, { from, to: null }, Date.now())!.practice).toMatchObject({ minutes: 5, callouts: [{ count: 1 }] });
		expect(service().own(learnerId, anyTime, Date.now())!.practice!.minutes).toBe(17);
	});

	it('is shown to an assessor from the day the learner joined, whatever is asked for, and with no single callout', () => {
		const { learnerId, assessor, cohort, line } = learner();
		shown(learnerId, [[heat, 'sound', 12]], 40);
		const attemptId = shown(learnerId, [[gas, 'sound', 5]], 2);
		const record = service().ofMember(assessor, cohort, line, { from: '2020-01-01', to: null }, Date.now())!;
		expect(record.practice!.minutes).toBe(5);
		const told = JSON.stringify(record);
		expect(told).toContain('Ruth Ashworth');
		expect(told).not.toContain(attemptId);
		expect(told).not.toContain(learnerId);
		expect(told).not.toMatch(/handle-\d/);
	});

	it('leaves out what was done in a paper', () => {
		const { learnerId, cohort, line } = learner();
		const attemptId = shown(learnerId, [[heat, 'sound', 12]]);
		const paper = makePaper(database(), { cohort, mode: 'practice', variants: [[drillItem()]] });
		const sat = satBy(database(), paper, line, [true]);
		database().insert(sittingItem).values({ sitting: sat, slot: 0, attempt: attemptId }).run();
		const record = service().own(learnerId, anyTime, Date.now())!;
		expect(record.practice).toMatchObject({ minutes: 0, callouts: [], packs: [] });
		expect(record.papers).toMatchObject([{ result: { is: 'told', got: 10, outOf: 10, passed: true, locked: false } }]);
	});

	it('is not shown of who has left, whose papers are', () => {
		const { learnerId, assessor, cohort, line } = learner();
		shown(learnerId, [[heat, 'sound', 12]]);
		satBy(database(), makePaper(database(), { cohort, mode: 'practice', variants: [[drillItem()]] }), line, [true]);
		database().update(member).set({ left: new Date() }).where(eq(member.id, line)).run();
		const record = service().ofMember(assessor, cohort, line, anyTime, Date.now())!;
		expect(record.practice).toBeNull();
		expect(record.papers).toHaveLength(1);
	});
});

describe('a paper on the record', () => {
	it('tells nothing before a formal window ends, and then says whether the sheet is locked', () => {
		const { learnerId, assessor, cohort, line } = learner();
		const closes = Date.now() + hourMs;
		const paper = makePaper(database(), { cohort, closes, variants: [[drillItem(), drillItem(8)]] });
		const sat = satBy(database(), paper, line, [true, false]);
		for (const record of [service().own(learnerId, anyTime, Date.now()), service().ofMember(assessor, cohort, line, anyTime, Date.now())]) {
			expect(record!.papers).toMatchObject([{ result: { is: 'held', from: new Date(closes) }, packHashes: [] }]);
			expect(JSON.stringify(record)).not.toMatch(/passed|percent/);
		}
		const [told] = service().own(learnerId, anyTime, closes)!.papers;
		expect(told!.result).toEqual({ is: 'told', got: 10, outOf: 20, percent: 50, passed: false, locked: false });
		database().update(sitting).set({ locked: new Date() }).where(eq(sitting.id, sat)).run();
		expect(service().own(learnerId, anyTime, closes)!.papers).toMatchObject([{ result: { locked: true } }]);
	});
});

describe('a record', () => {
	it('is nobody’s but an own assessor’s, and of nobody on another register', () => {
		const one = learner();
		const other = learner('Somebody Else');
		const ask = (assessor: string, cohort: string, line: string) => service().ofMember(assessor, cohort, line, anyTime, Date.now());
		expect(ask(one.assessor, one.cohort, one.line)).not.toBeNull();
		expect(ask(other.assessor, one.cohort, one.line)).toBeNull();
		expect(ask(one.assessor, one.cohort, other.line)).toBeNull();
		expect(ask(one.learnerId, one.cohort, one.line)).toBeNull();
		expect(service().own('nobody', anyTime, Date.now())).toBeNull();
	});

	it('takes no period that is none', () => {
		const { learnerId } = learner();
		const today = service().own(learnerId, anyTime, Date.now())!;
		for (const wrong of ['', 'yesterday', '2026-13-45', '<b>'])
			expect(service().own(learnerId, { from: wrong, to: wrong }, Date.now())).toMatchObject({ from: today.from, to: today.to });
	});
});
