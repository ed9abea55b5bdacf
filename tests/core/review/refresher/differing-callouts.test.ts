import { describe, expect, it } from 'vitest';
import { chance } from '#shared/quantity/random.ts';
import { generators } from '#shared/review/drills/index.ts';
import { isReading } from '#shared/review/refresher/difference.ts';
import { differencesOf } from '#shared/review/refresher/differences.ts';
import { astray, differingFaults, refresherItems, refresherMinutes, type Compared } from '#shared/review/refresher/differing-callouts.ts';
import { lookOutFor, type Went } from '#shared/review/refresher/look-out.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { areaSkillId } from '#shared/review/skills.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { stock } from '../../../sampled.ts';

const packs = stock.map(({ pack }) => pack);
const pairs = packs.flatMap((met) =>
	packs
		.filter((known) => known !== met)
		.map((known): [string, Compared] => {
			return [met.family.id, { met, known: [known], differences: differencesOf(met, [known]) }];
		})
);
const seeds = Array.from({ length: 40 }, (_, seed) => seed);

describe.each(pairs)('a refresher on %s', (_, compared) => {
	const { met, known } = compared;

	it('is a drill of the firing sequence and three callouts of different areas, in ten minutes', () => {
		for (const seed of seeds) {
			const items = refresherItems(compared, generators, seed);
			expect(items.map(({ kind }) => kind)).toEqual(['drill', 'callout', 'callout', 'callout']);
			expect(items[0]).toMatchObject({ skill: 'drill/sequence', family: met.family.id, why: 'differs' });
			const callouts = items.filter((item) => item.kind === 'callout');
			expect(new Set(callouts.map(({ skill }) => skill)).size).toBe(3);
			for (const { fault, skill, family } of callouts) {
				expect(skill).toBe(areaSkillId(family, met.faults.find(({ id }) => id === fault)!.area));
				expect(family).toBe(met.family.id);
			}
			const minutes = items.reduce((sum, item) => sum + item.minutes, 0);
			expect(minutes).toBeLessThan(refresherMinutes);
			expect(minutes).toBeGreaterThan(refresherMinutes - 2);
		}
	});

	it('is the same for the same seed, and others for others, with numbers of their own', () => {
		const made = seeds.map((seed) => refresherItems(compared, generators, seed));
		expect(seeds.map((seed) => refresherItems(compared, generators, seed))).toEqual(made);
		expect(
			new Set(made.map((items) => JSON.stringify(items.flatMap((item) => (item.kind === 'callout' ? [item.fault] : []))))).size
		).toBeGreaterThan(5);
		const numbers = made.flat().map(({ seed }) => seed);
		expect(new Set(numbers).size).toBe(numbers.length);
	});

	it('hides only faults on which a path learnt elsewhere goes astray, in the areas where it goes furthest', () => {
		const best = new Map<string, number>();
		for (const fault of met.faults) best.set(fault.area, Math.max(best.get(fault.area) ?? 0, astray(fault, compared)));
		const third = [...best.values()].toSorted((a, b) => b - a)[2]!;
		for (const seed of seeds) {
			for (const fault of differingFaults(compared, chance(seed))) {
				expect(best.get(fault.area)).toBeGreaterThanOrEqual(third);
				expect(astray(fault, compared)).toBeGreaterThanOrEqual(0.75 * best.get(fault.area)!);
			}
		}
	});

	it('gives no score to a fault that the known family has, shows and cures alike', () => {
		const otherwise = new Set(compared.differences.list.filter(isReading).map(({ check }) => check));
		const has = (list: readonly { readonly id: string }[], id: string | undefined) => list.some((one) => one.id === id);
		const [other] = known;
		let alike = 0;
		for (const fault of met.faults) {
			const isAlike =
				has(other!.faults, fault.id) &&
				has(other!.remedies, fault.cured[0]) &&
				fault.shown.every((check) => has(other!.checks, check) && !otherwise.has(check));
			expect(astray(fault, compared) === 0, fault.id).toBe(isAlike);
			if (isAlike) alike++;
		}
		expect(alike).toBeGreaterThan(2);
	});

	it('does not put the areas in an order that tells them', () => {
		const first = seeds.map((seed) => differingFaults(compared, chance(seed))[0]!.area);
		expect(new Set(first).size).toBeGreaterThan(2);
	});

	it('hides faults that somebody would complain of', () => {
		for (const seed of seeds.slice(0, 4)) {
			for (const item of refresherItems(compared, generators, seed)) {
				if (item.kind === 'callout') expect(makeCallout(met, item.seed, item.fault).fault!.id).toBe(item.fault);
			}
		}
	});
});

it('has no callouts where nothing differs, and no drill where none can be made', () => {
	const [pack] = packs as [Pack];
	const compared = { met: pack, known: [pack], differences: differencesOf(pack, [pack]) };
	expect(refresherItems(compared, generators, 1).map(({ kind }) => kind)).toEqual(['drill']);
	expect(refresherItems(compared, [], 1)).toEqual([]);
});

describe('what to look out for', () => {
	const { differences } = pairs[0]![1];
	const went = (recall: Went['recall'], fault: string, breaches: Went['breaches'] = []): Went => {
		return { recall, fault, because: 'So it is.', breaches };
	};
	const first = differences.list[0]!.says;

	it('begins with what was not shown soundly, the worst first, and leaves room for what misleads most', () => {
		const said = lookOutFor(differences, [went('laboured', 'A'), went('fluent', 'B'), went('lost', 'C'), went('lost', 'D')]);
		expect(said.slice(0, 4)).toEqual(['C: So it is.', 'D: So it is.', 'A: So it is.', first]);
		expect(said).toHaveLength(6);
		expect(said.join()).not.toContain('B: So');
	});

	it('says before all else what was unsafe, the dangerous first, each once and in the words of the rules', () => {
		const rule = (id: string) => packs[0]!.rules.safety.find((one) => one.id === id)!;
		const [gas, open] = [rule('gas-opened-on'), rule('left-open')];
		expect([gas.dangerous, open.dangerous]).toEqual([true, false]);
		const said = lookOutFor(differences, [went('laboured', 'A', [open]), went('lost', 'B', [gas, open])]);
		expect(said.slice(0, 4)).toEqual([`Dangerous. ${gas.says} ${gas.why}`, `Unsafe. ${open.says} ${open.why}`, 'B: So it is.', first]);
		expect(said).toHaveLength(6);
		const every = packs[0]!.rules.safety;
		expect(lookOutFor(differences, [went('lost', 'A', every)]).map((one) => one.split('. ')[1] + '.')).toEqual(
			[...every.filter(({ dangerous }) => dangerous), ...every.filter(({ dangerous }) => !dangerous)].map(
				({ says }) => says.split('. ')[0].replace(/\.$/, '') + '.'
			)
		);
	});

	it('is what misleads most where all went well, and never what is only on the known one', () => {
		const said = lookOutFor(differences, [went('sound', 'A'), went('fluent', 'B')]);
		expect(said[0]).toBe(first);
		expect(said).toHaveLength(6);
		expect(said.some((one) => one.startsWith('Not here'))).toBe(false);
		expect(lookOutFor({ list: [], sequences: [] }, [])).toEqual([]);
	});
});
