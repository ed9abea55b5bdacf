/** Callouts and drills drawn for a place of a paper, from the packs as they stand. */
import { describe, expect, it } from 'vitest';
import { calloutCandidates, candidatesFor, faultsFor } from '#shared/assessment/candidates.ts';
import { difficultyOf } from '#shared/assessment/difficulty.ts';
import { drillItems } from '#shared/assessment/drill-items.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import { generators } from '#shared/review/drills/index.ts';
import { areas, type Area } from '#shared/scenario/areas.ts';
import { drillKinds, type DrillKind } from '#shared/scenario/curriculum.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { combi, stock } from '../../sampled.ts';

const table = await evidenceFor(combi);
const place = (area: Area | null, slot = 0) => ({ kind: 'callout', slot, family: combi.family.id, area }) as const;

describe('the difficulty of a callout', () => {
	it('is what its sound path takes, and what is open before it', () => {
		for (const seed of [11, 12, 13]) {
			const callout = makeCallout(combi, seed);
			const { minutes, spent, cost, bits, checks } = difficultyOf(callout, table);
			const { actions, state } = soundPath(callout, table);
			expect({ minutes, spent }).toEqual({ minutes: state.minutes, spent: state.spent });
			expect(cost).toBeCloseTo((minutes * combi.rules.labourPerHour) / 60 + spent, 9);
			expect(checks).toBe(actions.filter(({ kind }) => kind === 'check').length);
			expect(bits).toBeGreaterThan(0);
			expect(bits).toBeLessThanOrEqual(Math.log2(combi.faults.length));
		}
	});
});

describe('callouts for a place', () => {
	const drawn = calloutCandidates(combi, table, place('diverting'), { count: 8, chosen: 3 }, 5);

	it('hide faults of its area, each as often as its weight says', () => {
		expect(drawn).toHaveLength(8);
		const faults = faultsFor(combi, { area: 'diverting' });
		const all = faults.reduce((sum, { weight }) => sum + weight, 0);
		for (const { id, weight } of faults) {
			const due = (8 * weight) / all;
			const times = drawn.filter(({ fault }) => fault === id).length;
			expect(times, id).toBeGreaterThanOrEqual(Math.floor(due));
			expect(times, id).toBeLessThanOrEqual(Math.ceil(due));
		}
	});

	it('are as many of each fault as an even share of what is chosen, however seldom it is met', () => {
		const faults = faultsFor(combi, { area: 'gas' });
		const chosen = 2 * faults.length - 1;
		const found = calloutCandidates(combi, table, place('gas'), { count: chosen, chosen }, 5);
		for (const { id } of faults) expect(found.filter(({ fault }) => fault === id).length, id).toBeGreaterThanOrEqual(2);
	});

	it('are made again from what is kept of them', () => {
		for (const { fault, complaint, seed, area, packHash, difficulty } of drawn.slice(0, 3)) {
			const callout = makeCallout(combi, seed, fault);
			expect(callout.fault).toMatchObject({ id: fault, area });
			expect(callout.complaint.id).toBe(complaint);
			expect(packHash).toBe(combi.hash);
			expect(difficultyOf(callout, table)).toEqual(difficulty);
		}
	});

	it('have numbers of their own, follow from the seed, and are others in another place', () => {
		expect(new Set(drawn.map(({ seed }) => seed)).size).toBe(8);
		const few = (slot: number, seed: number) => calloutCandidates(combi, table, place('diverting', slot), { count: 3, chosen: 3 }, seed);
		expect(few(0, 6)).toEqual(few(0, 6));
		expect(few(1, 6)).not.toEqual(few(0, 6));
		expect(few(0, 7)).not.toEqual(few(0, 6));
	});

	it('hide any fault where no area is named, and there are none of an area without a fault', () => {
		expect(faultsFor(combi, { area: null })).toEqual(combi.faults);
		const lacking = (Object.keys(areas) as Area[]).filter((area) => combi.faults.every((fault) => fault.area !== area));
		for (const area of lacking) expect(calloutCandidates(combi, table, place(area), { count: 4, chosen: 2 }, 1)).toEqual([]);
		expect(lacking.length).toBeGreaterThan(0);
	});

	it('are more than what is chosen, and fewer for each place the more places there are', () => {
		for (const places of [1, 3, 8, 40]) expect(candidatesFor(4, places)).toBeGreaterThan(4);
		expect(candidatesFor(4, 8)).toBeLessThan(candidatesFor(4, 2));
		expect(candidatesFor(4, 8, 3)).toBe(3 * candidatesFor(4, 8));
	});
});

describe('drills for a place', async () => {
	const grounds = await Promise.all(stock.map(async ({ pack }) => ({ pack, table: await evidenceFor(pack) })));
	const drills = (drill: DrillKind, slot = 0, seed = 3, taken: string[] = []) =>
		drillItems({ generators, grounds }, { kind: 'drill', drill, slot }, 4, seed, taken)!;

	it.each(drillKinds)('of the kind %s are of one generator and one family, with other numbers in each variant', (kind) => {
		const items = drills(kind);
		expect(items).toHaveLength(4);
		expect(new Set(items.map(({ generator, family }) => `${generator} ${family}`)).size).toBe(1);
		expect(new Set(items.map(({ seed }) => seed)).size).toBe(4);
		const [{ generator, family, packHash }] = items;
		const made = generators.find(({ id }) => id === generator)!;
		const ground = grounds.find(({ pack }) => pack.family.id === family);
		expect(made.drill).toBe(kind);
		expect(packHash).toBe(ground?.pack.hash ?? null);
		for (const { seed } of items) {
			expect(made.make({ pack: ground?.pack ?? null, table: ground?.table ?? null }, seed).question.drill).toBe(kind);
		}
	});

	it('ask for other figures in each variant', () => {
		const items = drills('gas-sums');
		const { make } = generators.find(({ id }) => id === items[0].generator)!;
		const asked = items.map(({ seed }) => JSON.stringify(make({ pack: null, table: null }, seed).question.given));
		expect(new Set(asked).size).toBe(4);
	});

	it('follow from the seed, and are of another generator in the next place while there is one', () => {
		const first = drills('gas-sums');
		expect(drills('gas-sums')).toEqual(first);
		const ids = generators.filter(({ drill }) => drill === 'gas-sums').map(({ id }) => id);
		const taken: string[] = [];
		for (const slot of ids.keys()) taken.push(drills('gas-sums', slot, 3, taken)[0].generator);
		expect(taken.toSorted()).toEqual(ids.toSorted());
	});

	it('are none where nothing of the kind can be asked', () => {
		expect(drillItems({ generators, grounds: [] }, { kind: 'drill', drill: 'sequence', slot: 0 }, 2, 1)).toBeNull();
	});
});
