import { describe, expect, it } from 'vitest';
import { addLearner } from '$lib/server/accounts/index.ts';
import { attempt, drill, round, roundItem, type ReviewRow } from '$lib/server/database/schema.ts';
import { minutesInAll } from '$lib/server/practice/round-minutes.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { areas } from '#shared/scenario/areas.ts';
import type { RoundItem } from '#shared/review/round/round.ts';
import { answerSum, day, leaveAtOnce, minute, monday, playNext, practising, sums, type Practising } from './practising.ts';

async function begun(minutes = 20, now = monday): Promise<Practising> {
	const one = practising();
	expect(await one.practice.rounds.begin(one.learnerId, minutes, now)).toEqual({ outcome: 'begun' });
	return one;
}
const roundsIn = ({ db }: Practising) => db.select().from(round).all();
const plannedIn = ({ db }: Practising) =>
	db
		.select()
		.from(roundItem)
		.all()
		.map(({ content }) => JSON.parse(content) as RoundItem);

/** Plays on until nothing is next. @returns when the last was over */
async function playOn(one: Practising, from: number): Promise<number> {
	let now = from;
	for (;;) {
		const ended = await playNext(one, now + minute);
		if (ended === null) return now;
		now = ended;
	}
}

describe('a round', () => {
	it('holds what was offered', async () => {
		const one = practising();
		const { practice, learnerId } = one;
		const offer = await practice.plans.offer(learnerId, 30, monday);
		await practice.rounds.begin(learnerId, 30, monday + minute);
		const begun = new Set(plannedIn(one).map(({ skill }) => skill));
		expect(begun.size).toBeGreaterThan(1);
		expect(offer).toMatchObject({ chosen: 30, due: 0, early: 0, left: 0, fresh: begun.size });
		expect(offer.minutes).toBe(Math.round(plannedIn(one).reduce((sum, item) => sum + item.minutes, 0)));
		expect(practice.rounds.tonight(learnerId, monday + minute)!.inAll).toBe(offer.minutes);
	});

	it('takes in all what its jobs take together, rounded once, and tells no callout from another before it is done', () => {
		const item = (kind: 'callout' | 'drill', minutes: number, took?: number) => ({
			wanted: { kind, minutes } as RoundItem,
			reviews: took === undefined ? [] : [{ minutes: took } as ReviewRow]
		});
		expect(minutesInAll(Array.from({ length: 11 }, () => item('drill', 1.55)))).toBe(17);
		expect(minutesInAll([item('callout', 6), item('callout', 9), item('drill', 1.4)])).toBe(16);
		// What is left of two callouts is their mean, whichever was done.
		for (const [first, second] of [
			[4, 12],
			[12, 4]
		])
			expect(minutesInAll([item('callout', first, 7), item('callout', second)])).toBe(15);
	});

	it('is gone through in its order to its end, which shuts it', async () => {
		const one = await begun(30);
		const { practice, learnerId } = one;
		const before = practice.rounds.tonight(learnerId, monday)!;
		expect(before).toMatchObject({ isOpen: true, minutes: 30, next: { place: 0 }, isMarking: false });
		expect(new Set(before.lines.map(({ kind }) => kind))).toEqual(new Set(['callout', 'drill']));
		for (const [place] of before.lines.entries()) {
			expect(practice.rounds.tonight(learnerId, monday)!.next?.place).toBe(place);
			await playNext(one, monday + place * minute);
		}
		const after = practice.rounds.tonight(learnerId, monday + 40 * minute)!;
		expect(after).toMatchObject({ isOpen: false, next: null, isMarking: false });
		expect(after.lines.every(({ state, shown, took }) => state === 'done' && shown.length > 0 && took! > 0)).toBe(true);
		expect(roundsIn(one)).toMatchObject([{ ended: expect.any(Date) }]);
		expect(await practice.rounds.goOn(learnerId, monday + 40 * minute)).toEqual({ outcome: 'over' });
	});

	it('begins what was planned, with its fault and its seed', async () => {
		const one = await begun(30);
		await playOn(one, monday);
		const planned = plannedIn(one);
		const attempts = one.db.select().from(attempt).all();
		const drills = one.db.select().from(drill).all();
		expect(attempts.map(({ family, fault, seed }) => ({ kind: 'callout', family, fault, seed }))).toEqual(
			planned.filter(({ kind }) => kind === 'callout').map(({ minutes: _, skill: __, why: ___, ...item }) => item)
		);
		expect(drills.map(({ generator, seed, family }) => ({ kind: 'drill', generator, seed, family }))).toEqual(
			planned.filter(({ kind }) => kind === 'drill').map(({ minutes: _, skill: __, why: ___, ...item }) => item)
		);
	});

	it('goes on after a refresh, a closed tab or a restart where it was left, and begins nothing twice', async () => {
		const one = await begun();
		const { practice, learnerId, again } = one;
		const first = await practice.rounds.goOn(learnerId, monday);
		const later = again();
		expect(await practice.rounds.goOn(learnerId, monday)).toEqual(first);
		expect(await later.practice.rounds.goOn(learnerId, monday + minute)).toEqual(first);
		expect(later.practice.rounds.tonight(learnerId, monday)!.lines[0]).toMatchObject({ state: 'begun' });
		expect(one.db.select().from(attempt).all().length + one.db.select().from(drill).all().length).toBe(1);
	});

	it('begins nothing twice for two tabs at the same moment', async () => {
		const one = await begun();
		const other = one.again();
		const gone = await Promise.all([one, other, one].map(({ practice }) => practice.rounds.goOn(one.learnerId, monday)));
		expect(new Set(gone.map((each) => JSON.stringify(each))).size).toBe(1);
		let now = monday;
		while (one.practice.rounds.tonight(one.learnerId, now)!.next!.what.startsWith('A callout')) now = (await playNext(one, now))!;
		const drills = await Promise.all([one, other, one].map(({ practice }) => practice.rounds.goOn(one.learnerId, now + minute)));
		expect(drills[0]).toMatchObject({ outcome: 'drill' });
		expect(new Set(drills.map((each) => JSON.stringify(each))).size).toBe(1);
		expect(one.db.select().from(drill).all()).toHaveLength(1);
	});

	it('is the only one open: a second beginning changes nothing', async () => {
		const one = await begun(20);
		const { practice, learnerId, again } = one;
		await Promise.all([practice.rounds.begin(learnerId, 10, monday), again().practice.rounds.begin(learnerId, 30, monday)]);
		expect(roundsIn(one)).toMatchObject([{ minutes: 20, ended: null }]);
		practice.rounds.end(learnerId, monday);
		await Promise.all([practice.rounds.begin(learnerId, 10, monday), again().practice.rounds.begin(learnerId, 30, monday)]);
		expect(roundsIn(one)).toHaveLength(2);
	});

	it('that is finished early counts what was done, and what was not is there the next time', async () => {
		const one = await begun(30);
		const { practice, learnerId } = one;
		const drillsFirst = plannedIn(one).findIndex(({ kind }) => kind === 'drill');
		let now = monday;
		for (let place = 0; place <= drillsFirst; place++) now = (await playNext(one, now))!;
		practice.rounds.end(learnerId, now);
		const after = practice.rounds.tonight(learnerId, now)!;
		expect(after).toMatchObject({ isOpen: false, next: null });
		expect(after.lines.filter(({ state }) => state === 'done')).toHaveLength(drillsFirst + 1);
		expect(after.lines.filter(({ state }) => state === 'waiting').length).toBeGreaterThan(0);
		expect(after.shown.length).toBeGreaterThan(0);
		expect(await practice.rounds.goOn(learnerId, now)).toEqual({ outcome: 'over' });
	});

	it('left open is shut by itself once the learner’s day has turned, at the turn', async () => {
		const one = await begun(20, monday + 5 * 60 * minute);
		const { practice, learnerId } = one;
		const afterMidnight = Date.parse('2026-11-03T03:59:00Z');
		const afterTurn = Date.parse('2026-11-03T04:00:00Z');
		expect(practice.rounds.tonight(learnerId, afterMidnight)).toMatchObject({ isOpen: true });
		const gone = await practice.rounds.goOn(learnerId, afterMidnight);
		if (gone.outcome !== 'callout') throw new Error(gone.outcome);
		expect(practice.rounds.wayOn(learnerId, { attempt: gone.id }, afterMidnight)).not.toBeNull();
		expect(practice.rounds.tonight(learnerId, afterTurn)).toBeNull();
		expect(practice.rounds.wayOn(learnerId, { attempt: gone.id }, afterTurn)).toBeNull();
		expect(roundsIn(one)[0]!.ended).toEqual(new Date(afterTurn));
		expect(await practice.rounds.goOn(learnerId, afterTurn)).toEqual({ outcome: 'over' });
		await practice.rounds.begin(learnerId, 10, afterTurn);
		expect(practice.rounds.tonight(learnerId, afterTurn)).toMatchObject({ isOpen: true, minutes: 10 });
	});

	it('is of ten, twenty or thirty minutes', async () => {
		const { practice, learnerId, ...one } = practising();
		for (const minutes of [0, 15, NaN, -10, 1e9]) expect((await practice.rounds.begin(learnerId, minutes, monday)).outcome).toBe('invalid');
		expect(one.db.select().from(round).all()).toEqual([]);
	});

	it('of somebody else is not there, and leads nobody else on', async () => {
		const one = await begun();
		const stranger = addLearner({ guest: true, invented: false }, one.db).id;
		const gone = await one.practice.rounds.goOn(one.learnerId, monday);
		expect(one.practice.rounds.tonight(stranger, monday)).toBeNull();
		expect(await one.practice.rounds.goOn(stranger, monday)).toEqual({ outcome: 'over' });
		one.practice.rounds.end(stranger, monday);
		expect(roundsIn(one)).toMatchObject([{ ended: null }]);
		if (gone.outcome !== 'callout') throw new Error(gone.outcome);
		expect(one.practice.rounds.wayOn(stranger, { attempt: gone.id }, monday)).toBeNull();
		expect(one.practice.rounds.wayOn(one.learnerId, { attempt: gone.id }, monday)).toMatchObject({ waiting: expect.any(Number) });
		leaveAtOnce(one, gone.id, one.learnerId, monday);
		await one.practice.reviews.settle(gone.id);
		expect(one.practice.rounds.shownByAttempt(gone.id, one.learnerId, monday)).toHaveLength(1);
		expect(one.practice.rounds.shownByAttempt(gone.id, stranger, monday)).toEqual([]);
	});

	it('goes past a callout that ended and is not marked yet, and shows it once it is', async () => {
		const one = await begun();
		const { practice, learnerId } = one;
		const gone = await practice.rounds.goOn(learnerId, monday);
		if (gone.outcome !== 'callout') throw new Error(gone.outcome);
		const ended = leaveAtOnce(one, gone.id, learnerId, monday);
		const marking = practice.rounds.tonight(learnerId, ended)!;
		expect(marking).toMatchObject({ isMarking: true, next: { place: 1 } });
		expect(marking.lines[0]).toMatchObject({ state: 'marking', shown: [], href: `/callout/${gone.id}/debrief` });
		await practice.reviews.settle(gone.id);
		expect(practice.rounds.tonight(learnerId, ended)!.lines[0]).toMatchObject({
			state: 'done',
			took: 1,
			shown: [{ recall: 'lost', back: 'tomorrow night' }]
		});
	});

	it('passes over what this version cannot play', async () => {
		const one = await begun(30);
		const later = one.again({ generators: new Map([...sums].slice(0, 1)) });
		const lines = later.practice.rounds.tonight(one.learnerId, monday)!.lines;
		const over = lines.filter(({ state }) => state === 'over');
		expect(over.length).toBeGreaterThan(0);
		expect(over.every(({ kind, href }) => kind === 'drill' && href === null)).toBe(true);
		const played = { ...one, ...later };
		await playOn(played, monday);
		expect(roundsIn(one)[0]!.ended).not.toBeNull();
	});
});

describe('a clock moved by days', () => {
	/** Skills that a round begun now would hold as due. */
	const dueIn = async ({ practice, learnerId }: Practising, now: number) =>
		(await practice.plans.planFor(learnerId, 30, now)).items.flatMap(({ skill, why }) => (why === 'due' ? [skill] : []));

	it('brings back the skills that are due then, and no others', async () => {
		const one = await begun(30);
		const { practice, learnerId } = one;
		const ended = await playOn(one, monday);
		const kept = [...practice.memories.of(learnerId).values()];
		expect(kept.length).toBeGreaterThan(1);
		expect(await dueIn(one, ended)).toEqual([]);
		for (const later of [1, 2, 3, 4, 6, 9, 14, 30]) {
			const now = monday + later * day;
			const due = kept.filter(({ due }) => due <= now).map(({ skill }) => skill);
			expect((await dueIn(one, now)).toSorted(), `after ${later} days`).toEqual(due.toSorted());
		}
		const first = Math.min(...kept.map(({ due }) => due));
		expect(await dueIn(one, first - 1)).toEqual([]);
		expect((await dueIn(one, first)).length).toBeGreaterThan(0);
	});

	it('brings nothing again with the same numbers over five evenings', async () => {
		const one = practising();
		const { practice, learnerId, db } = one;
		for (let evening = 0; evening < 5; evening++) {
			const now = monday + evening * day;
			await practice.rounds.begin(learnerId, 20, now);
			await playOn(one, now);
		}
		const seeds = [...db.select().from(attempt).all(), ...db.select().from(drill).all()].map(({ seed }) => seed);
		expect(seeds.length).toBeGreaterThan(8);
		expect(new Set(seeds).size).toBe(seeds.length);
		expect(roundsIn(one).every(({ ended }) => ended !== null)).toBe(true);
	});
});

describe('what a round shows', () => {
	it('of a callout that is not done is the family and why it is there, and the same minutes for all', async () => {
		const one = await begun(30);
		const { practice, learnerId } = one;
		await practice.rounds.goOn(learnerId, monday);
		const planned = plannedIn(one).filter((item) => item.kind === 'callout');
		const view = practice.rounds.tonight(learnerId, monday)!;
		const callouts = view.lines.filter(({ kind }) => kind === 'callout');
		expect(callouts).toHaveLength(planned.length);
		expect(new Set(callouts.map(({ minutes }) => minutes)).size).toBe(1);
		const said = JSON.stringify([view, practice.rounds.wayOn(learnerId, { attempt: one.db.select().from(attempt).all()[0]!.id }, monday)]);
		const secrets = [
			...Object.keys(areas),
			...Object.values(areas),
			...[...packs().values()].flatMap(({ faults }) => faults.flatMap(({ id, says }) => [id, says])),
			...planned.map(({ seed }) => String(seed))
		];
		expect(secrets.filter((secret) => new RegExp(`(?<![\\w-])${secret}(?![\\w-])`).test(said))).toEqual([]);
		expect(said).not.toMatch(/"(skill|seed|fault|generator)":/);
	});

	it('of a drill is its kind, and nothing of its numbers', async () => {
		const one = await begun(30);
		const drills = one.practice.rounds.tonight(one.learnerId, monday)!.lines.filter(({ kind }) => kind === 'drill');
		expect(drills.length).toBeGreaterThan(0);
		expect(drills.every(({ what }) => what.startsWith('A drill: '))).toBe(true);
	});

	it('leads on from a drill to what is next', async () => {
		const one = await begun(30);
		const { practice, learnerId } = one;
		let now = monday;
		for (let drillId: string | null = null; drillId === null;) {
			const gone = await practice.rounds.goOn(learnerId, now);
			if (gone.outcome !== 'drill') {
				now = (await playNext(one, now))!;
				continue;
			}
			drillId = gone.id;
			const before = practice.rounds.wayOn(learnerId, { drill: drillId }, now)!;
			await answerSum(one, drillId, learnerId, now);
			expect(practice.rounds.wayOn(learnerId, { drill: drillId }, now)!.waiting).toBe(before.waiting - 1);
		}
	});
});
