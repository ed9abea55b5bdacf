/** Nothing is met twice with the same numbers, and no fault twice running where the area has another. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Night } from '#shared/review/round/night.ts';
import { planRound } from '#shared/review/round/plan-round.ts';
import { chance, mostSeed } from '#shared/quantity/random.ts';
import { recalls } from '#shared/marking/recall.ts';
import { afterRound, anyNight, evening, families, nightOf } from './nights.ts';

/** Plays rounds on so many evenings, and gives every item met in order. */
function play(first: Night, nights: number, seed: number) {
	let night = first;
	const met: Night['played'][number][] = [];
	for (let day = 0; day < nights; day++) {
		const { items } = planRound(night);
		const next = afterRound(night, items, (item) => chance(seed, 'recall', item.seed).pick(recalls));
		met.push(...next.played.slice(night.played.length));
		night = { ...night, ...next, now: evening(day + 1), seed: night.seed + 1 };
	}
	return met;
}

describe('over forty nights', () => {
	it('no seed comes twice, though every night is planned from the same seed', () => {
		fc.assert(
			fc.property(fc.nat(), fc.constantFrom(10, 20, 30), (seed, minutes) => {
				let night = nightOf({ minutes, seed });
				for (let day = 0; day < 40; day++) {
					const { items } = planRound(night);
					night = { ...night, ...afterRound(night, items, () => 'sound'), now: evening(day + 1) };
				}
				const seeds = night.played.map((played) => played.seed);
				expect(seeds.length).toBeGreaterThan(60);
				expect(new Set(seeds).size).toBe(seeds.length);
			}),
			{ numRuns: 4 }
		);
	});

	it('no fault comes twice running in a skill that has several, and each comes before one comes a third time', () => {
		fc.assert(
			fc.property(fc.nat(), (seed) => {
				const met = play(nightOf({ taught: families(1), minutes: 30, seed }), 40, seed);
				for (const skill of new Set(met.map((one) => one.skill))) {
					const faults = met
						.filter((one) => one.skill === skill && one.family !== null && !skill.startsWith('drill/'))
						.map(({ what }) => what);
					if (skill.endsWith('/gas')) expect(faults.every((fault) => fault === 'gas-1')).toBe(true);
					else faults.slice(1).forEach((fault, index) => expect(fault).not.toBe(faults[index]));
				}
				const water = met.filter((one) => one.skill === 'family-0/water-supply').map(({ what }) => what);
				expect(new Set(water.slice(0, 3)).size).toBe(3);
			}),
			{ numRuns: 4 }
		);
	});

	it('no generator of a kind comes twice running where it has another', () => {
		const met = play(nightOf({ taught: families(2), minutes: 20, seed: 3 }), 40, 3);
		const sums = met.filter((one) => one.skill === 'drill/water-sums').map(({ what }) => what);
		expect(sums.length).toBeGreaterThan(2);
		sums.slice(1).forEach((what, index) => expect(what).not.toBe(sums[index]));
	});
});

describe('every item', () => {
	it('can be played: a fault of its area, a generator of its kind, a family where one is needed', () => {
		fc.assert(
			fc.property(anyNight, (night) => {
				for (const item of planRound(night).items) {
					expect(Number.isSafeInteger(item.seed) && item.seed >= 0 && item.seed <= mostSeed).toBe(true);
					if (item.kind === 'callout') {
						expect(night.faults.find(({ family, id }) => family === item.family && id === item.fault)?.area).toBe(item.skill.split('/')[1]);
						expect(item.skill).toBe(`${item.family}/${item.skill.split('/')[1]}`);
					} else {
						const generator = night.generators.find(({ id }) => id === item.generator)!;
						expect(`drill/${generator.drill}`).toBe(item.skill);
						if (generator.families === null) expect(item.family).toBeNull();
						else expect(generator.families).toContain(item.family);
					}
				}
			}),
			{ numRuns: 100 }
		);
	});

	it('has numbers that were never met', () => {
		const first = planRound(nightOf({ seed: 9 })).items;
		const played = first.map((item) => ({ skill: item.skill, at: 0, seed: item.seed, what: 'water-supply-1', family: null }));
		const again = planRound(nightOf({ seed: 9, played })).items;
		expect(again.map(({ seed }) => seed).filter((seed) => first.some((item) => item.seed === seed))).toEqual([]);
	});
});
