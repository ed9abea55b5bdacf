import { describe, expect, it } from 'vitest';
import { asc, eq } from 'drizzle-orm';
import { verifyAudit } from '$lib/server/audit/audit.ts';
import { action, attempt, auditEntry, drill, member, review, sitting, sittingEvent, variantItem } from '$lib/server/database/schema.ts';
import { playedIn } from '$lib/server/practice/played.ts';
import { reviewLogIn } from '$lib/server/database/review-log.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { deadlineOf } from '$lib/server/sittings/allowed.ts';
import { variantFor } from '$lib/server/sittings/assign-variant.ts';
import { paperSheet, papersOf, runningSitting } from '$lib/server/sittings/learners-papers.ts';
import { onTheBench } from '$lib/server/sittings/on-the-bench.ts';
import { heldOf, isHeldBack } from '$lib/server/sittings/release.ts';
import { sittingPage } from '$lib/server/sittings/sitting-page.ts';
import { beginSitting, closeOverdue, closeSitting, sittingsIn, type Standing } from '$lib/server/sittings/sittings.ts';
import {
	addAccount,
	drillItem,
	firstPack,
	hourMs,
	joinCohort,
	makeCohort,
	makePaper,
	minuteMs,
	someVariants,
	type PaperChoice
} from '../papers.ts';
import { practising, sums, type Practising } from './practice/practising.ts';

const nine = Date.parse('2026-11-02T09:00:00Z');
const zone = 'UTC';

/** Papers whose drill is a sum that a test can answer. */
const variants = (count = 3) =>
	someVariants(count).map((items) => [...items.slice(0, 2), { ...drillItem(), generator: 'twice-water-sums', seed: 12 }]);

interface Room extends Practising {
	readonly cohort: string;
	readonly sitter: string;
	readonly paper: string;
	readonly seat: string;
	readonly marked: string[];
	readonly sittings: ReturnType<typeof sittingsIn>;
	begin(now?: number, learner?: string, seat?: string): string;
}

/** A learner in a cohort with a paper that is open from nine to twelve. */
function room(choice: Partial<PaperChoice> = {}, extraPercent = 0): Room {
	const one = practising();
	const { db, callouts, practice } = one;
	const sitter = addAccount(db, 'Ada');
	const cohort = makeCohort(db);
	joinCohort(db, cohort, sitter, { extraPercent });
	const paper = makePaper(db, { cohort, now: nine, opens: nine, closes: nine + 3 * hourMs, variants: variants(), ...choice });
	const marked: string[] = [];
	const mark = (id: string) => void marked.push(id);
	const sittings = sittingsIn({ db, callouts, practice, closing: { mark } });
	const begin = (now = nine, learner = sitter, seat = 'here') => {
		const begun = beginSitting(db, paper, { learner, seat }, now);
		if (begun.outcome !== 'begun') throw new Error(JSON.stringify(begun));
		return begun.id;
	};
	return { ...one, cohort, sitter, paper, seat: 'here', marked, sittings, begin };
}

const rowOf = ({ db }: Room, id: string) => db.select().from(sitting).where(eq(sitting.id, id)).get()!;
const eventsOf = ({ db }: Room, id: string) =>
	db
		.select()
		.from(sittingEvent)
		.where(eq(sittingEvent.sitting, id))
		.orderBy(asc(sittingEvent.id))
		.all()
		.map(({ kind }) => kind);

function running(stands: Standing) {
	if (stands.outcome !== 'running') throw new Error(stands.outcome);
	return stands;
}

async function goTo(one: Room, id: string, slot: number, now: number): Promise<string> {
	const gone = await one.sittings.goTo(id, { learner: one.sitter, seat: one.seat }, slot, now);
	if (gone.outcome !== 'callout' && gone.outcome !== 'drill') throw new Error(gone.outcome);
	return gone.id;
}

function leave({ callouts, sitter }: Room, attemptId: string, now: number) {
	return callouts.act(attemptId, sitter, { kind: 'leave', told: [] }, callouts.load(attemptId, sitter)!.seq, now);
}

describe('a sitting begins', () => {
	it('once for two clicks, in the window, with a line in the audit trail', () => {
		const one = room();
		const id = one.begin();
		expect(one.begin(nine + 1)).toBe(id);
		expect(rowOf(one, id)).toMatchObject({ number: 1, started: new Date(nine), deadline: new Date(nine + hourMs), seat: 'here' });
		const lines = one.db.select().from(auditEntry).all();
		expect(lines).toMatchObject([{ kind: 'sitting-began', subject: id, by: one.sitter, cohort: one.cohort }]);
		expect(verifyAudit(one.db)).toMatchObject({ outcome: 'whole', rows: 1 });
		expect(eventsOf(one, id)).toEqual(['began']);
	});

	it('neither before nor after the window, nor once the attempts are used', () => {
		const one = room();
		const who = { learner: one.sitter, seat: 'here' };
		expect(beginSitting(one.db, one.paper, who, nine - 1)).toMatchObject({
			outcome: 'refused',
			says: expect.stringContaining('not opened')
		});
		expect(beginSitting(one.db, one.paper, who, nine + 3 * hourMs)).toMatchObject({
			outcome: 'refused',
			says: expect.stringContaining('over')
		});
		closeSitting(one.db, one.begin(), 'handed-in', nine + 1, { mark: () => undefined });
		expect(beginSitting(one.db, one.paper, who, nine + 2)).toMatchObject({
			outcome: 'refused',
			says: expect.stringContaining('no attempt')
		});
		expect(one.db.select().from(sitting).all()).toHaveLength(1);
	});

	it('for nobody but those on the register, and not while the paper is a draft', () => {
		const one = room();
		const stranger = addAccount(one.db, 'Bob');
		expect(beginSitting(one.db, one.paper, { learner: stranger, seat: 's' }, nine)).toEqual({ outcome: 'missing' });
		expect(paperSheet(one.paper, { id: stranger, zone }, nine, one.db)).toBeNull();
		const draft = makePaper(one.db, { cohort: one.cohort, now: nine, set: null });
		expect(beginSitting(one.db, draft, { learner: one.sitter, seat: 's' }, nine)).toEqual({ outcome: 'missing' });
		expect(paperSheet(draft, { id: one.sitter, zone }, nine, one.db)).toBeNull();
		one.db
			.update(member)
			.set({ left: new Date(nine) })
			.run();
		expect(beginSitting(one.db, one.paper, { learner: one.sitter, seat: 's' }, nine)).toEqual({ outcome: 'missing' });
	});

	it('with extra time of one’s own, never beyond the window, and says so before', () => {
		expect(deadlineOf({ minutes: 60, closes: new Date(nine + 3 * hourMs) }, { extraPercent: 25 }, nine)).toEqual({
			at: nine + 75 * minuteMs,
			isCut: false
		});
		const one = room({}, 25);
		const reader = { id: one.sitter, zone };
		expect(paperSheet(one.paper, reader, nine, one.db)).toMatchObject({ minutes: 75, baseMinutes: 60, left: 1, cut: null, refused: null });
		const late = nine + 140 * minuteMs;
		expect(paperSheet(one.paper, reader, late, one.db)!.cut).toEqual({ at: '12:00', minutes: 40 });
		expect(rowOf(one, one.begin(late)).deadline).toEqual(new Date(nine + 3 * hourMs));
	});
});

describe('variants', () => {
	it('are none that a member has sat while another is left, whoever went from the register meanwhile', () => {
		const one = room({ variants: variants(3), attempts: 4 });
		const first = joinCohort(one.db, one.cohort, null, { created: new Date(1) });
		const id = one.begin();
		closeSitting(one.db, id, 'handed-in', nine + minuteMs, { mark: () => undefined });
		// With the name before theirs taken off, the register moves up and its turn would come round again.
		one.db.delete(member).where(eq(member.id, first)).run();
		const mine = one.db.select().from(member).where(eq(member.learner, one.sitter)).get()!.id;
		const sat: number[] = [rowOf(one, id).variant];
		const turns = (number: number) => variantFor(one.db, { paper: one.paper, cohort: one.cohort, member: mine }, number);
		expect(sat).not.toContain(turns(2));
		for (let number = 2; number <= 4; number++) {
			const next = one.begin(nine + number * 2 * minuteMs);
			closeSitting(one.db, next, 'handed-in', nine + (number * 2 + 1) * minuteMs, { mark: () => undefined });
			sat.push(rowOf(one, next).variant);
		}
		expect(new Set(sat.slice(0, 3)).size).toBe(3);
		expect([1, 2, 3]).toContain(sat[3]);
	});

	it('go round the register, so that neighbours differ and each is given as often as any other', () => {
		const one = room({ variants: variants(4) });
		const people = Array.from({ length: 23 }, (_, index) => joinCohort(one.db, one.cohort, addAccount(one.db, `Member ${index}`)));
		const all = people.map((id) => variantFor(one.db, { paper: one.paper, cohort: one.cohort, member: id }, 1)!);
		for (const [index, variant] of all.slice(1).entries()) expect(variant).not.toBe(all[index]);
		const counts = [1, 2, 3, 4].map((number) => all.filter((variant) => variant === number).length);
		expect(Math.max(...counts) - Math.min(...counts)).toBeLessThanOrEqual(1);
		const again = people.map((id) => variantFor(one.db, { paper: one.paper, cohort: one.cohort, member: id }, 1)!);
		expect(again).toEqual(all);
		const second = people.map((id) => variantFor(one.db, { paper: one.paper, cohort: one.cohort, member: id }, 2)!);
		for (const [index, variant] of second.entries()) expect(variant).not.toBe(all[index]);
	});

	it('of a paper without any cannot be begun', () => {
		const one = room({ variants: [] });
		expect(beginSitting(one.db, one.paper, { learner: one.sitter, seat: 's' }, nine)).toMatchObject({ outcome: 'refused' });
	});
});

describe('while it runs', () => {
	it('plays what its variant holds, each item once however many tabs ask', async () => {
		const one = room();
		const id = one.begin();
		const [first, again] = await Promise.all([goTo(one, id, 0, nine + 1), goTo(one, id, 0, nine + 1)]);
		expect(again).toBe(first);
		const [drillId, drillAgain] = await Promise.all([goTo(one, id, 2, nine + 1), goTo(one, id, 2, nine + 1)]);
		expect(drillAgain).toBe(drillId);
		const [row] = one.db.select().from(attempt).all();
		const { variant } = rowOf(one, id);
		const item = JSON.parse(
			one.db
				.select()
				.from(variantItem)
				.all()
				.find((each) => each.variant === variant && each.slot === 0)!.content
		) as { fault: string; seed: number };
		expect(row).toMatchObject({ id: first, learner: one.sitter, fault: item.fault, seed: item.seed });
		expect(one.db.select().from(drill).all()).toMatchObject([{ id: drillId, seed: 12 }]);
		const { items } = running(one.sittings.standing(id, { learner: one.sitter, seat: 'here' }, nine + 2));
		expect(items.map(({ state }) => state)).toEqual(['begun', 'untried', 'begun']);
		expect(await one.sittings.goTo(id, { learner: one.sitter, seat: 'here' }, 9, nine + 2)).toEqual({ outcome: 'missing' });
	});

	it('goes on to what is not done', async () => {
		const one = room();
		const id = one.begin();
		leave(one, await goTo(one, id, 0, nine + 1), nine + 2);
		const next = await one.sittings.goTo(id, { learner: one.sitter, seat: 'here' }, null, nine + 3);
		expect(running(one.sittings.standing(id, { learner: one.sitter, seat: 'here' }, nine + 4)).items[1]).toMatchObject({
			state: 'begun',
			attempt: (next as { id: string }).id
		});
	});

	it('is the learner’s own and nobody else’s', async () => {
		const one = room();
		const id = one.begin();
		const other = { learner: addAccount(one.db, 'Bob'), seat: 'here' };
		expect(one.sittings.standing(id, other, nine + 1)).toEqual({ outcome: 'missing' });
		expect(await one.sittings.goTo(id, other, 0, nine + 1)).toEqual({ outcome: 'missing' });
		expect(one.sittings.takeSeat(id, other, nine + 1)).toBe(false);
		expect(one.sittings.handIn(id, other, nine + 1)).toEqual({ outcome: 'missing' });
		expect(one.sittings.standing('no-such', { learner: one.sitter, seat: 'here' }, nine)).toEqual({ outcome: 'missing' });
		expect(eventsOf(one, id)).toEqual(['began']);
	});

	it('has one seat: another session is refused until it takes it, and both are written down', async () => {
		const one = room();
		const id = one.begin();
		const attemptId = await goTo(one, id, 0, nine + 1);
		const there = { learner: one.sitter, seat: 'there' };
		const benchFrom = (seat: string, now: number) => onTheBench({ attempt: attemptId }, { learner: one.sitter, seat, zone }, now, one.db);
		expect(one.sittings.standing(id, there, nine + 2).outcome).toBe('elsewhere');
		expect(await one.sittings.goTo(id, there, 1, nine + 3)).toEqual({ outcome: 'closed' });
		expect(one.sittings.handIn(id, there, nine + 3)).toEqual({ outcome: 'elsewhere' });
		expect(benchFrom('there', nine + 4)).toEqual({ outcome: 'away', sitting: id });
		// Tried four times within a minute is one try.
		expect(eventsOf(one, id)).toEqual(['began', 'second-seat']);
		expect(one.sittings.takeSeat(id, there, nine + 5)).toBe(true);
		expect(one.sittings.standing(id, there, nine + 6).outcome).toBe('running');
		expect(benchFrom('there', nine + 6)).toMatchObject({ outcome: 'open', strip: { id, isFormal: true, until: '10:00' } });
		expect(benchFrom('here', nine + 2 * minuteMs)).toEqual({ outcome: 'away', sitting: id });
		expect(eventsOf(one, id)).toEqual(['began', 'second-seat', 'took-seat', 'second-seat']);
		expect(one.db.select().from(attempt).all()).toHaveLength(1);
	});

	it('writes down when its seat was last seen', () => {
		const one = room();
		const id = one.begin();
		one.sittings.standing(id, { learner: one.sitter, seat: 'here' }, nine + 20_000);
		expect(rowOf(one, id).seen).toEqual(new Date(nine + 20_000));
		one.sittings.standing(id, { learner: one.sitter, seat: 'there' }, nine + 40_000);
		expect(rowOf(one, id).seen).toEqual(new Date(nine + 20_000));
	});

	it('refuses a prediction in a formal paper and takes it in a practice paper', async () => {
		for (const [mode, outcome] of [
			['formal', 'refused'],
			['practice', 'done']
		] as const) {
			const one = room({ mode });
			const attemptId = await goTo(one, one.begin(), 0, nine + 1);
			one.callouts.act(attemptId, one.sitter, { kind: 'demand', demand: 'tap' }, 0, nine + 2);
			const { view, seq } = one.callouts.load(attemptId, one.sitter)!;
			const check = view.checks.find(({ id }) => id === 'measure-tap-temperature')!;
			const expects = firstPack()
				.faults.slice(0, 2)
				.map(({ id }) => ({ fault: id, reads: 'lower' }));
			const acted = one.callouts.act(attemptId, one.sitter, { kind: 'predict', check: check.id, expects }, seq, nine + 3);
			expect(acted.outcome, JSON.stringify('says' in acted && acted.says)).toBe(outcome);
		}
	});
});

describe('the end', () => {
	it('comes by itself at the deadline, whoever looks, and is marked once', () => {
		const one = room();
		const id = one.begin();
		const closing = { mark: (ended: string) => void one.marked.push(ended) };
		expect(closeOverdue(one.db, nine + hourMs - 1, closing)).toBe(0);
		expect(closeOverdue(one.db, nine + 2 * hourMs, closing)).toBe(1);
		expect(closeOverdue(one.db, nine + 2 * hourMs, closing)).toBe(0);
		expect(rowOf(one, id)).toMatchObject({ ended: new Date(nine + hourMs), endedBy: 'time' });
		expect(eventsOf(one, id)).toEqual(['began', 'time']);
		expect(one.marked).toEqual([id]);
	});

	it('comes at the next request that concerns it', () => {
		const one = room();
		const id = one.begin();
		expect(one.sittings.standing(id, { learner: one.sitter, seat: 'here' }, nine + hourMs)).toMatchObject({
			outcome: 'closed',
			isReleased: false
		});
		expect(rowOf(one, id).endedBy).toBe('time');
		expect(one.marked).toEqual([id]);
	});

	it('lets nothing in any more: no action, no answer, no item', async () => {
		const one = room();
		const id = one.begin();
		const who = { learner: one.sitter, seat: 'here' };
		const attemptId = await goTo(one, id, 0, nine + 1);
		const drillId = await goTo(one, id, 2, nine + 1);
		const last = nine + hourMs - 1;
		expect(one.callouts.act(attemptId, one.sitter, { kind: 'demand', demand: 'tap' }, 0, last).outcome).toBe('done');
		const after = nine + hourMs;
		const acted = one.callouts.act(attemptId, one.sitter, { kind: 'demand', demand: 'none' }, 1, after);
		expect(acted).toMatchObject({ outcome: 'refused', says: expect.stringContaining('over') });
		expect(await one.practice.drills.answer(drillId, one.sitter, { written: '24' }, after)).toMatchObject({ outcome: 'refused' });
		expect(await one.sittings.goTo(id, who, 1, after)).toEqual({ outcome: 'closed' });
		expect(one.sittings.handIn(id, who, after)).toEqual({ outcome: 'done' });
		expect(rowOf(one, id).endedBy).toBe('time');
		expect(one.db.select().from(action).all()).toHaveLength(1);
		expect(one.db.select().from(drill).all()).toMatchObject([{ answer: null }]);
		expect(one.db.select().from(attempt).all()).toHaveLength(1);
	});

	it('by handing in or by an assessor shuts it as well, before its time', async () => {
		for (const by of ['handed-in', 'assessor'] as const) {
			const one = room();
			const id = one.begin();
			const attemptId = await goTo(one, id, 0, nine + 1);
			const closing = { mark: () => undefined, assessor: 'an-assessor' };
			expect(closeSitting(one.db, id, by, nine + 60_000, closing)).toBe(true);
			expect(closeSitting(one.db, id, by, nine + 60_001, closing)).toBe(false);
			expect(rowOf(one, id)).toMatchObject({ ended: new Date(nine + 60_000), endedBy: by });
			expect(one.callouts.act(attemptId, one.sitter, { kind: 'demand', demand: 'tap' }, 0, nine + 60_002).outcome).toBe('refused');
			const line = one.db.select().from(auditEntry).all().at(-1)!;
			expect(line).toMatchObject({ kind: 'sitting-ended', by: by === 'assessor' ? 'an-assessor' : one.sitter });
		}
	});
});

describe('what is held back', () => {
	it('of a formal paper until the window ends, of a practice paper until the sitting does', async () => {
		for (const [mode, whileHandedIn] of [
			['formal', true],
			['practice', false]
		] as const) {
			const one = room({ mode });
			const id = one.begin();
			const attemptId = await goTo(one, id, 0, nine + 1);
			expect(isHeldBack(one.db, { attempt: attemptId }, nine + 2)).toBe(true);
			expect(heldOf(one.db, one.sitter, nine + 2)).toEqual({ attempts: new Set([attemptId]), drills: new Set() });
			closeSitting(one.db, id, 'handed-in', nine + 3, { mark: () => undefined });
			expect(isHeldBack(one.db, { attempt: attemptId }, nine + 4)).toBe(whileHandedIn);
			expect(isHeldBack(one.db, { attempt: attemptId }, nine + 3 * hourMs)).toBe(false);
			expect(heldOf(one.db, one.sitter, nine + 3 * hourMs).attempts.size).toBe(0);
		}
	});

	it('is in no log and no plan before, and in both after', async () => {
		const one = room();
		const id = one.begin();
		const attemptId = await goTo(one, id, 0, nine + 1);
		const drillId = await goTo(one, id, 2, nine + 1);
		expect(leave(one, attemptId, nine + minuteMs).outcome).toBe('done');
		expect((await one.practice.drills.answer(drillId, one.sitter, { written: '24' }, nine + minuteMs)).outcome).toBe('answered');
		closeSitting(one.db, id, 'handed-in', nine + 2 * minuteMs, { mark: () => undefined });
		const log = reviewLogIn(one.db);
		const played = playedIn(one.db, packs(), sums);
		const before = nine + 3 * hourMs - 1;
		expect(log.unreviewed(before)).toEqual([]);
		expect(log.unreviewedDrills(before)).toEqual([]);
		await one.practice.reviews.settle(attemptId, before);
		expect(await one.practice.drills.review(drillId, before)).toBe('not yet');
		expect(one.db.select().from(review).all()).toEqual([]);
		expect(one.practice.memories.of(one.sitter).size).toBe(0);
		expect(played(one.sitter, before)).toEqual([]);

		const after = nine + 3 * hourMs;
		expect(log.unreviewed(after)).toEqual([attemptId]);
		expect(log.unreviewedDrills(after)).toEqual([drillId]);
		await one.practice.reviews.settle(attemptId, after);
		expect(await one.practice.drills.review(drillId, after)).toBe('done');
		expect(await one.practice.drills.review(drillId, after)).toBe('done');
		const lines = one.db.select().from(review).all();
		expect(lines.filter(({ drill }) => drill === drillId)).toMatchObject([{ recall: 'sound', at: new Date(nine + minuteMs) }]);
		expect(lines.filter(({ attempt }) => attempt === attemptId)).toMatchObject([{ at: new Date(nine + minuteMs) }]);
		expect(one.practice.memories.of(one.sitter).size).toBe(2);
		expect(played(one.sitter, after)).toHaveLength(2);
	});

	it('makes the next round no other than it would have been', async () => {
		const [sat, idle] = [room(), room()];
		const rounds = await Promise.all(
			[sat, idle].map(async (one) => {
				const id = one.begin();
				if (one === sat) {
					leave(one, await goTo(one, id, 0, nine + 1), nine + 2);
					await one.practice.drills.answer(await goTo(one, id, 2, nine + 3), one.sitter, { written: '1' }, nine + 4);
					for (const held of one.db.select().from(attempt).all()) await one.practice.reviews.settle(held.id, nine + 5);
				}
				const { items } = await one.practice.plans.planFor(one.sitter, 20, nine + hourMs);
				// Its figures are drawn by who the learner is, which differs here.
				return items.map(({ kind, skill, why, minutes }) => ({ kind, skill, why, minutes }));
			})
		);
		expect(rounds[0]).toEqual(rounds[1]);
		expect(rounds[0]!.length).toBeGreaterThan(3);
	});
});

describe('the pages', () => {
	it('list papers as open, to come, sat and over', () => {
		const one = room({ title: 'Now' });
		const reader = { id: one.sitter, zone };
		makePaper(one.db, { cohort: one.cohort, title: 'Next', now: nine, opens: nine + 24 * hourMs, closes: nine + 30 * hourMs });
		makePaper(one.db, { cohort: one.cohort, title: 'Last', now: nine, opens: nine - 30 * hourMs, closes: nine - 24 * hourMs });
		const titles = (now: number) => {
			const { open, toCome, sat, over } = papersOf(reader, now, one.db);
			return [open, toCome, sat, over].map((lines) => lines.map(({ title }) => title));
		};
		expect(titles(nine)).toEqual([['Now'], ['Next'], [], ['Last']]);
		const id = one.begin();
		expect(titles(nine + 1)).toEqual([['Now'], ['Next'], [], ['Last']]);
		closeSitting(one.db, id, 'handed-in', nine + 2, { mark: () => undefined });
		expect(titles(nine + 3)).toEqual([[], ['Next'], ['Now'], ['Last']]);
		expect(titles(nine + 3 * hourMs)).toEqual([[], ['Next'], [], ['Now', 'Last']]);
	});

	it('list of what is open first what runs, with its minutes, then what closes soonest', () => {
		const one = room({ title: 'Runs' });
		const reader = { id: one.sitter, zone };
		for (const [title, hours] of [
			['Late', 9],
			['Soon', 1],
			['Later', 2]
		] as const)
			makePaper(one.db, { cohort: one.cohort, title, now: nine, opens: nine, closes: nine + hours * hourMs });
		const open = (now: number) => papersOf(reader, now, one.db).open;
		const titles = (now: number) => open(now).map(({ title }) => title);
		expect(titles(nine)).toEqual(['Soon', 'Later', 'Runs', 'Late']);
		one.begin();
		expect(titles(nine + minuteMs)).toEqual(['Runs', 'Soon', 'Later', 'Late']);
		expect(open(nine + 56 * minuteMs)[0]!.sittings).toMatchObject([{ isRunning: true, minutesLeft: 4 }]);
	});

	it('offer to sit a practice paper again while it is open and an attempt is left', () => {
		const one = room({ mode: 'practice', attempts: 2 });
		const again = (id: string, now: number) => {
			const page = sittingPage(id, { id: one.sitter, zone, seat: 'here' }, now, one.db, one.sittings.standing);
			return page.outcome === 'told' ? page.canSitAgain : page.outcome;
		};
		const sat = (now: number) => {
			const id = one.begin(now);
			closeSitting(one.db, id, 'handed-in', now + 1, { mark: () => undefined });
			one.db
				.update(sitting)
				.set({ marked: new Date(now + 1) })
				.where(eq(sitting.id, id))
				.run();
			return id;
		};
		const first = sat(nine);
		expect(again(first, nine + 2)).toBe(true);
		expect(again(first, nine + 3 * hourMs)).toBe(false);
		sat(nine + 3);
		expect(again(first, nine + 5)).toBe(false);
	});

	it('lead back to the sitting that runs, and to none before or after it, nor to another’s', () => {
		const one = room();
		const at = (now: number, learner = one.sitter) => runningSitting({ id: learner, zone }, now, one.db);
		expect(at(nine)).toBeNull();
		const id = one.begin();
		expect(at(nine + minuteMs)).toEqual({ id, title: 'Hot water, first paper', until: '10:00' });
		expect(at(nine + minuteMs, addAccount(one.db, 'Bob'))).toBeNull();
		expect(at(nine + hourMs)).toBeNull();
		closeSitting(one.db, id, 'handed-in', nine + 2 * minuteMs, { mark: () => undefined });
		expect(at(nine + 3 * minuteMs)).toBeNull();
	});

	it('name of a callout its family alone, and the same for every variant', () => {
		const texts = [1, 2, 3].map((variant) => {
			const one = room();
			const id = one.begin();
			one.db.update(sitting).set({ variant }).run();
			const page = sittingPage(id, { id: one.sitter, zone, seat: 'here' }, nine + 1, one.db, one.sittings.standing);
			return JSON.stringify(page).replaceAll(id, 'ID').replaceAll(one.paper, 'PAPER');
		});
		expect(new Set(texts).size).toBe(1);
	});

	it('say after the end when it is told, and then that it is being marked', () => {
		const one = room();
		const id = one.begin();
		const reader = { id: one.sitter, zone, seat: 'here' };
		one.sittings.handIn(id, { learner: one.sitter, seat: 'here' }, nine + minuteMs);
		const pageAt = (now: number) => sittingPage(id, reader, now, one.db, one.sittings.standing, () => null);
		expect(pageAt(nine + 2 * minuteMs)).toMatchObject({ outcome: 'closed', endedBy: 'handed-in', endedAt: '09:01', toldAt: '12:00 today' });
		expect(pageAt(nine + 3 * hourMs)).toMatchObject({ outcome: 'closed', toldAt: null });
	});
});
