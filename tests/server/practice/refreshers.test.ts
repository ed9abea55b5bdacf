import { describe, expect, it } from 'vitest';
import { addLearner } from '$lib/server/accounts/index.ts';
import { attempt, review, round, roundItem } from '$lib/server/database/schema.ts';
import { packs } from '$lib/server/packs/packs.ts';
import type { RoundItem } from '#shared/review/round/round.ts';
import { areas } from '#shared/scenario/areas.ts';
import { answerSum, day, leaveAtOnce, minute, monday, playNext, practising, type Practising } from './practising.ts';

const all = [...packs().keys()];
const [met, known] = [all[1]!, all[0]!];
const families = { met, known: [known] };

function begun(one = practising(), learnerId = one.learnerId, now = monday): string {
	expect(one.practice.refreshers.begin(learnerId, families, now, false)).toEqual({ outcome: 'begun' });
	return one.practice.rounds.tonight(learnerId, now)!.refresher!.id;
}
const plannedOf = ({ db }: Practising, id: string) =>
	db
		.select()
		.from(roundItem)
		.all()
		.filter((row) => row.round === id)
		.map(({ content }) => JSON.parse(content) as RoundItem);

describe('what can be chosen', () => {
	it('is every family in stock, those begun known as such', async () => {
		const one = practising();
		const { practice, learnerId, callouts } = one;
		expect(practice.refreshers.choice(null).families).toMatchObject(all.map((id) => ({ id, isBegun: false })));
		const started = callouts.start(learnerId, { family: known, seed: 11 }, monday);
		if (started.outcome !== 'started') throw new Error(started.says);
		leaveAtOnce(one, started.attemptId, learnerId, monday);
		await practice.reviews.settle(started.attemptId);
		expect(practice.refreshers.choice(learnerId).families.filter(({ isBegun }) => isBegun)).toMatchObject([{ id: known }]);
		expect(JSON.stringify(practice.refreshers.choice(learnerId))).not.toContain(learnerId);
	});

	it('is nothing but the family itself, or one out of stock', () => {
		const { refreshers } = practising().practice;
		expect(refreshers.compare({ met: 'no-such-family', known: [known] })).toEqual({ outcome: 'unknown' });
		for (const others of [[], [met], ['no-such-family'], [met, 'no-such-family']]) {
			expect(refreshers.compare({ met, known: others }), others.join()).toEqual({ outcome: 'alone' });
			expect(refreshers.begin('nobody', { met, known: others }, monday, false)).toEqual({ outcome: 'alone' });
		}
		expect(refreshers.compare({ met, known: [known, met, 'gone', known] })).toMatchObject({
			outcome: 'compared',
			sheet: { met: { id: met }, known: [{ id: known }], missing: ['gone'], isPlayable: true }
		});
	});
});

describe('a refresher', () => {
	it('is a round of the family met that is gone through like any other, and its reviews count', async () => {
		const one = practising();
		const { practice, learnerId, db } = one;
		const id = begun(one);
		const view = practice.rounds.tonight(learnerId, monday)!;
		expect(view).toMatchObject({ isOpen: true, minutes: 10, refresher: { id, met: packs().get(met)!.family.short } });
		expect(view.lines.map(({ kind }) => kind)).toEqual(['drill', 'callout', 'callout', 'callout']);
		expect(view.lines.reduce((sum, { minutes }) => sum + minutes, 0)).toBe(10);
		expect(view.lines.every(({ why }) => why === 'differs')).toBe(true);
		let now = monday;
		for (let ended: number | null = now; ended !== null; ended = await playNext(one, now + minute)) now = ended;
		expect(practice.rounds.tonight(learnerId, now)).toMatchObject({ isOpen: false, refresher: { id } });
		const planned = plannedOf(one, id);
		expect(db.select().from(attempt).all()).toMatchObject(
			planned.flatMap((item) => (item.kind === 'callout' ? [{ family: met, fault: item.fault, seed: item.seed }] : []))
		);
		expect(
			new Set(
				db
					.select()
					.from(review)
					.all()
					.map(({ skill }) => skill)
			)
		).toEqual(new Set(planned.map(({ skill }) => skill)));
		for (const { skill } of planned) expect(practice.memories.of(learnerId).get(skill)?.reviews).toBe(1);
	});

	it('tells its result: the drill, each bill in a line, and what to look out for', async () => {
		const one = practising();
		const { practice, learnerId } = one;
		const id = begun(one);
		const drill = await practice.rounds.goOn(learnerId, monday);
		if (drill.outcome !== 'drill') throw new Error(drill.outcome);
		await answerSum(one, drill.id, learnerId, monday + minute, false);
		const early = (await practice.refresherResult(id, learnerId, monday + minute))!;
		expect(early).toMatchObject({ isOpen: true, drill: { state: 'done', judged: { right: false, recall: 'lost' } }, isMarking: false });
		expect(early.callouts).toMatchObject([1, 2, 3].map((place) => ({ place, state: 'waiting', bill: null })));
		let now = monday + minute;
		for (let ended: number | null = now; ended !== null; ended = await playNext(one, now + minute)) now = ended;
		const result = (await practice.refresherResult(id, learnerId, now + 3 * day))!;
		expect(result).toMatchObject({ isOpen: false, date: 'Monday 2 November 2026', families, isMarking: false });
		expect(result.sheet).toMatchObject({ met: { id: met }, known: [{ id: known }] });
		const hidden = plannedOf(one, id).flatMap((item) => (item.kind === 'callout' ? [item.fault] : []));
		for (const [index, { bill, href }] of result.callouts.entries()) {
			const fault = packs()
				.get(met)!
				.faults.find((each) => each.id === hidden[index])!;
			expect(bill).toMatchObject({ fault: fault.says, area: areas[fault.area], recall: 'lost', outOf: 100 });
			expect(bill!.lost.reduce((sum, { marks }) => sum + marks, 0)).toBeCloseTo(bill!.outOf - bill!.marks, 6);
			expect(href).toMatch(/\/debrief$/);
			expect(result.lookOut[index]).toContain(fault.says.replace(/\.$/, ''));
		}
		expect(result.lookOut[3]).toBe(result.sheet!.differences.list[0]!.says);
	});

	it('tells nobody else, and nothing of a round that is none', async () => {
		const one = practising();
		const { practice, learnerId, db } = one;
		const id = begun(one);
		const stranger = addLearner({ guest: true, invented: false }, db).id;
		expect(await practice.refresherResult(id, stranger, monday)).toBeNull();
		expect(await practice.refresherResult('no-such-round', learnerId, monday)).toBeNull();
		practice.rounds.end(learnerId, monday);
		await practice.rounds.begin(learnerId, 20, monday);
		const night = db
			.select()
			.from(round)
			.all()
			.find(({ refresher }) => refresher === null)!;
		expect(await practice.refresherResult(night.id, learnerId, monday)).toBeNull();
	});

	it('gives away no fault and no area before a callout is done', async () => {
		const one = practising();
		const people = Array.from({ length: 6 }, () => addLearner({ guest: true, invented: false }, one.db).id);
		const said = new Set<string>();
		const hidden = new Set<string>();
		for (const learnerId of people) {
			const id = begun(one, learnerId);
			const callouts = plannedOf(one, id).filter(({ kind }) => kind === 'callout');
			hidden.add(JSON.stringify(callouts.map(({ skill }) => skill)));
			const told = JSON.stringify([
				one.practice.rounds.tonight(learnerId, monday),
				await one.practice.refresherResult(id, learnerId, monday)
			]);
			for (const { skill, seed } of callouts) {
				expect(told).not.toContain(skill);
				expect(told).not.toContain(String(seed));
			}
			said.add(told.replaceAll(id, 'ROUND'));
		}
		expect(hidden.size).toBeGreaterThan(1);
		expect(said.size).toBe(1);
	});

	it('does not begin over an open round unless that is to be ended, and what was done there counts', async () => {
		const one = practising();
		const { practice, learnerId, db } = one;
		await practice.rounds.begin(learnerId, 30, monday);
		const now = (await playNext(one, monday))!;
		const open = practice.rounds.tonight(learnerId, now)!;
		expect(practice.refreshers.begin(learnerId, families, now, false)).toMatchObject({
			outcome: 'open',
			round: { refresher: null, next: open.next }
		});
		expect(db.select().from(round).all()).toHaveLength(1);
		expect(practice.refreshers.begin(learnerId, families, now, true)).toEqual({ outcome: 'begun' });
		expect(db.select().from(round).all()).toMatchObject([
			{ ended: new Date(now), refresher: null },
			{ ended: null, minutes: 10 }
		]);
		expect(db.select().from(review).all()).toHaveLength(1);
		expect(practice.refreshers.begin(learnerId, families, now, false)).toMatchObject({
			outcome: 'open',
			round: { refresher: { met: packs().get(met)!.family.short } }
		});
		// A night's round begun meanwhile leaves it as it is.
		await practice.rounds.begin(learnerId, 20, now);
		expect(practice.rounds.tonight(learnerId, now)!.refresher).not.toBeNull();
	});

	it('is other callouts with other numbers the next time', () => {
		const one = practising();
		const first = plannedOf(one, begun(one));
		one.practice.rounds.end(one.learnerId, monday);
		const second = plannedOf(one, begun(one, one.learnerId, monday + minute));
		expect(second.map(({ seed }) => seed)).not.toEqual(first.map(({ seed }) => seed));
		expect(new Set([...first, ...second].map(({ seed }) => seed)).size).toBe(first.length + second.length);
	});

	it('does not change the length that is offered for a night', async () => {
		const one = practising();
		await one.practice.rounds.begin(one.learnerId, 30, monday);
		one.practice.rounds.end(one.learnerId, monday);
		begun(one, one.learnerId, monday + minute);
		expect(one.practice.rounds.lastMinutes(one.learnerId)).toBe(30);
	});

	it('of which a family is no longer in stock stays readable, and what cannot be played is passed over', async () => {
		const one = practising();
		const id = begun(one);
		const kept = new Map([...packs()].filter(([family]) => family !== met));
		const later = one.again({ known: kept });
		const view = later.practice.rounds.tonight(one.learnerId, monday)!;
		expect(view.refresher!.met).toBe('an appliance no longer in stock');
		expect(view.lines.filter(({ kind }) => kind === 'callout').every(({ state }) => state === 'over')).toBe(true);
		expect(await later.practice.refresherResult(id, one.learnerId, monday)).toMatchObject({ sheet: null, families, lookOut: [] });
		expect(later.practice.refreshers.choice(null).families).toHaveLength(kept.size);
		// A known one that has gone takes only the comparison with it.
		const without = one.again({ known: new Map([...packs()].filter(([family]) => family !== known)) });
		expect(await without.practice.refresherResult(id, one.learnerId, monday)).toMatchObject({ sheet: null, callouts: [{}, {}, {}] });
	});
});
