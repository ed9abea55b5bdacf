import { monitorEventLoopDelay } from 'node:perf_hooks';
import { describe, expect, it } from 'vitest';
import { addLearner } from '$lib/server/accounts/index.ts';
import { drill, review } from '$lib/server/database/schema.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { drillKinds } from '#shared/scenario/curriculum.ts';
import { generators } from '#shared/review/drills/index.ts';
import { NothingToAsk } from '#shared/review/drills/draw.ts';
import type { Generator } from '#shared/review/drills/drill.ts';
import { firstFamily } from '../fresh.ts';
import { answerSum, minute, monday, playNext, practising, sums, type Process } from './practising.ts';

const pack = packs().get(firstFamily())!;
const own = new Map(generators.map((one) => [one.id, one]));
const wanted = { generator: 'twice-water-sums', family: null, seed: 21 };

async function asked({ practice }: Process, learnerId: string): Promise<string> {
	const one = await practice.drills.ask(learnerId, wanted, monday);
	if (one.outcome !== 'asked') throw new Error(one.outcome);
	return one.id;
}
const logOf = ({ db }: Process) => db.select().from(review).all();
const drillsOf = ({ db }: Process) => db.select().from(drill).all();

describe('a drill', () => {
	it('is answered once: stored with what it showed, and the second answer is shown the first', async () => {
		const one = practising();
		const { learnerId, practice } = one;
		const id = await asked(one, learnerId);
		const first = await practice.drills.answer(id, learnerId, { written: '42' }, monday + minute / 2);
		expect(first).toMatchObject({ outcome: 'answered', drill: { answered: { judged: { right: true, recall: 'sound' } } } });
		const second = await practice.drills.answer(id, learnerId, { written: '7' }, monday + 9 * minute);
		expect(second).toEqual(first);
		expect(await one.again().practice.drills.answer(id, learnerId, { written: '8' }, monday + 10 * minute)).toEqual(first);
		expect(logOf(one)).toMatchObject([{ skill: 'drill/water-sums', recall: 'sound', minutes: 0.5, drill: id, attempt: null }]);
		expect(practice.memories.of(learnerId).get('drill/water-sums')).toMatchObject({ reviews: 1 });
	});

	it('is answered once by two tabs at the same time', async () => {
		const one = practising();
		const id = await asked(one, one.learnerId);
		const other = one.again();
		const [a, b] = await Promise.all([
			one.practice.drills.answer(id, one.learnerId, { written: '42' }, monday + minute),
			other.practice.drills.answer(id, one.learnerId, { written: '41' }, monday + minute)
		]);
		expect(a).toEqual(b);
		expect(logOf(one)).toHaveLength(1);
	});

	it('stores nothing of what is no answer, and may be answered then', async () => {
		const one = practising();
		const id = await asked(one, one.learnerId);
		const refused = await one.practice.drills.answer(id, one.learnerId, { written: 'twice' }, monday);
		expect(refused).toEqual({ outcome: 'refused', says: 'A figure was expected.' });
		expect([drillsOf(one)[0]!.answer, logOf(one)]).toEqual([null, []]);
		await answerSum(one, id, one.learnerId, monday + minute);
		expect(logOf(one)).toHaveLength(1);
	});

	it('stores an answer whole or not at all', async () => {
		const one = practising();
		const id = await asked(one, one.learnerId);
		one.db.$client.exec(`create trigger no_more before insert on review begin select raise(abort, 'the power went'); end`);
		await expect(one.practice.drills.answer(id, one.learnerId, { written: '42' }, monday)).rejects.toThrow(/the power went/);
		expect(drillsOf(one)[0]!.answer).toBeNull();
		one.db.$client.exec('drop trigger no_more');
		await answerSum(one, id, one.learnerId, monday);
		expect(logOf(one)).toHaveLength(1);
	});

	it('counts a pause in the minutes as five, and in the recall as it was', async () => {
		const one = practising();
		const id = await asked(one, one.learnerId);
		await answerSum(one, id, one.learnerId, monday + 90 * minute);
		expect(logOf(one)).toMatchObject([{ minutes: 5, recall: 'laboured' }]);
	});

	it('of somebody else is not there', async () => {
		const one = practising();
		const id = await asked(one, one.learnerId);
		const stranger = addLearner({ guest: true, invented: false }, one.db).id;
		expect(await one.practice.drills.find(id, stranger)).toEqual({ outcome: 'missing' });
		expect(await one.practice.drills.answer(id, stranger, { written: '42' }, monday)).toEqual({ outcome: 'missing' });
		expect(await one.practice.drills.find('no-such-drill', one.learnerId)).toEqual({ outcome: 'missing' });
		expect(logOf(one)).toEqual([]);
	});

	it('cannot be judged where this version has no such generator', async () => {
		const one = practising();
		const id = await asked(one, one.learnerId);
		const later = one.again({ generators: new Map([...sums].filter(([key]) => key !== wanted.generator)) });
		expect((await later.practice.drills.find(id, one.learnerId)).outcome).toBe('over');
		expect((await later.practice.drills.answer(id, one.learnerId, { written: '42' }, monday)).outcome).toBe('over');
	});

	it('is not asked of a kind or a family that there is not', async () => {
		const { practice, learnerId, ...one } = practising();
		expect(await practice.drills.askKind(learnerId, 'no-such-kind', monday)).toEqual({ outcome: 'unknown' });
		expect(await practice.drills.ask(learnerId, { ...wanted, family: 'no-such-family' }, monday)).toEqual({ outcome: 'unknown' });
		expect(drillsOf({ ...one, practice })).toEqual([]);
	});
});

describe('every generator of the product', () => {
	it('is asked, and found again by another process as the very same question', async () => {
		const one = practising({ generators: own });
		const other = one.again();
		const kinds = new Set<string>();
		for (const { id, needs, drill: kind } of own.values()) {
			const family = needs === 'nothing' ? null : pack.family.id;
			const answer = await one.practice.drills.ask(one.learnerId, { generator: id, family, seed: 77 }, monday);
			if (answer.outcome !== 'asked') throw new Error(`${id}: ${answer.outcome}`);
			const found = await one.practice.drills.find(answer.id, one.learnerId);
			expect(found, id).toMatchObject({ outcome: 'standing', drill: { question: { drill: kind }, answered: null } });
			expect(await other.practice.drills.find(answer.id, one.learnerId), id).toEqual(found);
			kinds.add(kind);
		}
		expect([...kinds].toSorted()).toEqual(drillKinds.toSorted());
	});

	it('that needs the evidence table is left out until it is there', async () => {
		let isThere = false;
		const one = practising({ generators: own, tableSoon: async (which) => (isThere ? evidenceFor(which) : null) });
		const { practice, learnerId } = one;
		const needing = [...own.values()].filter(({ needs }) => needs === 'evidence');
		expect(needing.length).toBeGreaterThan(0);
		const planned = async () => {
			const { items } = await practice.plans.planFor(learnerId, 30, monday);
			return items.flatMap((item) => (item.kind === 'drill' ? [item.generator] : []));
		};
		const isNeeding = (id: string) => needing.some((one) => one.id === id);
		expect((await planned()).filter(isNeeding)).toEqual([]);
		expect((await practice.plans.offer(learnerId, 30, monday)).isWithoutEvidence).toBe(true);
		const kind = needing.find(({ drill: of }) => [...own.values()].every((one) => one.drill !== of || one.needs === 'evidence'))!.drill;
		expect((await practice.plans.askable())(kind)).toBe('none');
		expect(await practice.drills.askKind(learnerId, kind, monday)).toEqual({ outcome: 'making' });
		expect((await practice.drills.ask(learnerId, { generator: needing[0]!.id, family: pack.family.id, seed: 1 }, monday)).outcome).toBe(
			'making'
		);
		expect(drillsOf(one)).toEqual([]);
		isThere = true;
		expect((await practice.plans.offer(learnerId, 30, monday)).isWithoutEvidence).toBe(false);
		expect((await practice.plans.askable())(kind)).toBe('ready');
		expect((await practice.drills.askKind(learnerId, kind, monday)).outcome).toBe('asked');
	});
});

describe('a family', () => {
	const lacking = [...own.values()].flatMap((generator) =>
		[...packs().values()].flatMap((one) => (generator.offers?.({ pack: one, table: null }) === false ? [{ generator, pack: one }] : []))
	);

	it('is never asked what it has nothing of', async () => {
		expect(lacking.length).toBeGreaterThan(0);
		const one = practising({ generators: own });
		for (const { generator, pack: without } of lacking) {
			const wanted = { generator: generator.id, family: without.family.id, seed: 5 };
			expect(await one.practice.drills.ask(one.learnerId, wanted, monday)).toEqual({ outcome: 'unknown' });
			for (let asked = 0; asked < 40; asked++) await one.practice.drills.askKind(one.learnerId, generator.drill, monday);
			const rows = drillsOf(one).filter(({ generator: id, family }) => id === generator.id && family === without.family.id);
			expect(rows).toEqual([]);
		}
		expect(drillsOf(one)).toHaveLength(40 * lacking.length);
	});

	it('whose table is ready is asked about readings while that of another is being made', async () => {
		const one = practising({ generators: own, tableSoon: async (which) => (which === pack ? evidenceFor(which) : null) });
		const { practice, learnerId } = one;
		const states = await practice.plans.askable();
		expect([states('reading'), states('sequence'), states('gas-sums')]).toEqual(['part', 'ready', 'ready']);
		for (let asked = 0; asked < 6; asked++) await practice.drills.askKind(learnerId, 'reading', monday);
		expect(drillsOf(one).map(({ family }) => family)).toEqual(Array.from({ length: 6 }, () => pack.family.id));
		const planned = await Promise.all(
			[0, 1, 2, 3, 4, 5].map(async (night) => (await practice.plans.planFor(learnerId, 30, monday + night * 24 * 60 * minute)).items)
		);
		const needing = planned.flat().filter((item) => item.kind === 'drill' && own.get(item.generator)!.needs === 'evidence');
		expect(needing.length).toBeGreaterThan(0);
		for (const { family } of needing) expect(family).toBe(pack.family.id);
	});
});

describe('a drill that turns out to have nothing to ask', () => {
	const barren = (drill: string): Generator => ({
		id: `barren-${drill}`,
		drill,
		needs: 'family',
		make: (_, seed) => {
			throw new NothingToAsk(`barren-${drill}`, seed);
		}
	});
	const sources = { generators: new Map([...sums.values()].map(({ drill: kind }) => [`barren-${kind}`, barren(kind)])) };

	it('is passed over, and the round goes on to its end', async () => {
		const one = practising(sources);
		const { practice, learnerId } = one;
		await practice.rounds.begin(learnerId, 30, monday);
		const drills = practice.rounds.tonight(learnerId, monday)!.lines.filter(({ kind }) => kind === 'drill');
		expect(drills.length).toBeGreaterThan(0);
		for (let now: number | null = monday; now !== null;) now = await playNext(one, now + minute);
		const after = practice.rounds.tonight(learnerId, monday + 60 * minute)!;
		expect(after.isOpen).toBe(false);
		expect(after.lines.map(({ kind, state }) => `${kind} ${state}`).toSorted()).toEqual(
			after.lines.map(({ kind }) => (kind === 'drill' ? 'drill over' : 'callout done')).toSorted()
		);
		expect(drillsOf(one)).toEqual([]);
	});

	it('is not asked by its kind either', async () => {
		const { practice, learnerId } = practising(sources);
		expect(await practice.drills.askKind(learnerId, 'water-sums', monday)).toEqual({ outcome: 'nothing' });
	});
});

it('drills that weigh readings are made and judged without holding up the server', async () => {
	const one = practising({ generators: own });
	const { practice, learnerId } = one;
	const ask = async (seed: number) => {
		const asked = await practice.drills.ask(learnerId, { generator: 'next-check-after-readings', family: pack.family.id, seed }, monday);
		if (asked.outcome !== 'asked') throw new Error(asked.outcome);
		return asked.id;
	};
	await ask(1);
	const delay = monitorEventLoopDelay({ resolution: 5 });
	delay.enable();
	const began = performance.now();
	const ids = await Promise.all([2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13].map(ask));
	const found = await one.again().practice.drills.find(ids[0]!, learnerId);
	if (found.outcome !== 'standing' || !('choices' in found.drill.question.asking)) throw new Error(found.outcome);
	const [first] = found.drill.question.asking.choices;
	const answered = await practice.drills.answer(ids[0]!, learnerId, { chosen: [first!.id] }, monday + minute);
	const tookMs = performance.now() - began;
	delay.disable();
	expect(answered).toMatchObject({ outcome: 'answered', drill: { answered: { judged: { worked: expect.any(Array) } } } });
	// Made where the server answers, they would hold it up for all of that time.
	expect(delay.max / 1e6).toBeLessThan(tookMs / 3);
});
