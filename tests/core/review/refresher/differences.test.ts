import { describe, expect, it } from 'vitest';
import { sampleMachine } from '#shared/callout/sample-machine.ts';
import { bandOf } from '#shared/callout/take-check.ts';
import { isReading, misleads, type Difference, type ReadingDifference } from '#shared/review/refresher/difference.ts';
import { cautionsOf } from '$lib/practice/refresher/cautions.ts';
import { differencesOf } from '#shared/review/refresher/differences.ts';
import type { Demand, Quantities } from '#shared/appliance/model.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';
import { stock } from '../../../sampled.ts';

const packs = stock.map(({ pack }) => pack);
const pairs = packs.flatMap((met) =>
	packs.filter((known) => known !== met).map((known) => [met.family.id, known.family.id, met, known] as const)
);
const readings = (list: readonly Difference[]): ReadingDifference[] => list.filter(isReading);
const pointsOf = (list: readonly Difference[]) =>
	readings(list).flatMap(({ check, demands }) => demands.map((demand) => `${check}/${demand}`));

it('there are two families to compare', () => {
	expect(pairs.length).toBeGreaterThanOrEqual(2);
});

describe.each(pairs)('%s, met by somebody who knows %s', (_, __, met, known) => {
	const { list, sequences } = differencesOf(met, [known]);
	const back = differencesOf(known, [met]);

	it('differs from it in what it differs from this one, the two changed round', () => {
		const had = (some: readonly Difference[], side: Difference['side']) =>
			some
				.filter((one) => one.side === side)
				.map(({ kind, id }) => `${kind} ${id}`)
				.toSorted();
		expect(had(list, 'here')).toEqual(had(back.list, 'known'));
		expect(had(list, 'known')).toEqual(had(back.list, 'here'));
		expect(had(list, 'here').length).toBeGreaterThan(10);
		expect(pointsOf(list).toSorted()).toEqual(pointsOf(back.list).toSorted());
		for (const one of readings(list)) {
			const other = readings(back.list).find(({ check, demands }) => check === one.check && demands.includes(one.demands[0]!))!;
			expect([one.here, one.there[0]!.reads]).toEqual([other.there[0]!.reads, other.here]);
		}
	});

	/** What one has that the other shows under another id, read by hand: neither side may be told that it is missing. */
	const also: Record<string, readonly string[]> = {
		place: ['heating-dial', 'tap-dial', 'injector', 'injectors'],
		indication: ['no-circulation']
	};

	it('does not say of what stands under another id that it is missing', () => {
		for (const [kind, ids] of Object.entries(also)) {
			const said = list.filter((one) => one.kind === kind).map(({ id }) => id);
			for (const id of ids) expect(said, kind).not.toContain(id);
		}
		const hot = (pack: Pack) => Object.values(pack.family.indications).filter((says) => says.startsWith('Too hot')).length;
		expect([met, known].map(hot).every((count) => count > 0)).toBe(true);
		expect(list.filter(({ kind, name }) => kind === 'indication' && name.startsWith('Too hot'))).toEqual([]);
	});

	it('warns wherever a check of it is live, and passes every caution on', () => {
		const checks = list.filter(({ kind, side }) => side !== 'known' && ['reading', 'test-point', 'check'].includes(kind));
		for (const one of checks) {
			const check = met.checks.find(({ id }) => id === (isReading(one) ? one.check : one.id))!;
			expect([one.isLive ?? false, one.caution], one.id).toEqual([check.live, check.caution]);
			if (isReading(one)) expect(one.says.endsWith(' A live test.'), one.id).toBe(check.live);
		}
		expect(checks.filter(({ isLive }) => isLive).length).toBeGreaterThan(2);
		const said = cautionsOf(checks);
		expect(said.flatMap(({ names }) => names).toSorted()).toEqual(
			[...new Set(checks.flatMap(({ name, caution }) => (caution === undefined ? [] : [name])))].toSorted()
		);
		expect(said.map(({ isLive }) => isLive)).toEqual(said.map(({ isLive }) => isLive).toSorted((a, b) => Number(b) - Number(a)));
	});

	it('names nothing as had by one that both have, and misses nothing that one has', () => {
		const ids: Record<string, (pack: Pack) => readonly string[]> = {
			part: ({ parts }) => parts.map(({ id }) => id),
			place: ({ drawing }) => drawing.places.map(({ id }) => id),
			indication: ({ family }) => Object.keys(family.indications),
			tool: ({ checks }) => [...new Set(checks.flatMap(({ instrument }) => instrument ?? []))]
		};
		for (const [kind, of] of Object.entries(ids)) {
			const only = of(met).filter((id) => !of(known).includes(id) && !(also[kind]?.includes(id) ?? false));
			expect(
				list
					.filter((one) => one.kind === kind && one.side === 'here')
					.map(({ id }) => id)
					.toSorted(),
				kind
			).toEqual(only.toSorted());
		}
		const checks = list.filter(({ kind, side }) => (kind === 'check' || kind === 'test-point') && side === 'here').map(({ id }) => id);
		const own = met.checks.filter(({ id, way }) => way !== 'ask' && !known.checks.some((other) => other.id === id)).map(({ id }) => id);
		expect(checks.toSorted()).toEqual(own.toSorted());
	});

	it('says first what would mislead most, each in a sentence of its own', () => {
		const weights = list.map((one) => one.misleads);
		expect(weights).toEqual(weights.toSorted((a, b) => b - a));
		expect(weights.every((weight) => weight > 0 && weight <= 1)).toBe(true);
		expect(list.findLastIndex(isReading)).toBe(readings(list).length - 1);
		for (const { says } of list) expect(says).toMatch(/^[A-Z].*[.?]$/);
		expect(new Set(list.map(({ kind, side, id }) => `${kind} ${side} ${id}`)).size).toBe(list.length);
		expect(JSON.stringify(list)).not.toMatch(/undefined|NaN|\.\.[^.]/);
	});

	it('puts every step beside the other family’s, and marks what only one has', () => {
		const steps = sequences.flatMap(({ sides }) => sides.filter(({ isMet }) => isMet).flatMap((side) => side.steps));
		expect(steps.map(({ id }) => id).toSorted()).toEqual(met.family.sequence.map(({ id }) => id).toSorted());
		const only = list.filter(({ kind, side }) => kind === 'step' && side === 'here').map(({ name }) => name);
		expect(
			steps
				.filter(({ is }) => is === 'only')
				.map(({ does }) => does)
				.toSorted()
		).toEqual(only.toSorted());
	});

	it('holds on other machines than those it was worked out from', () => {
		const apart = readings(list).flatMap(({ check, demands }) => demands.map((demand) => [check, demand] as const));
		expect(apart.length).toBeGreaterThan(2);
		for (const [check, demand] of apart) {
			const [here, there] = [met, known].map((pack) =>
				spanOf(
					pack,
					pack.checks.find(({ id }) => id === check)!,
					demand
				)
			);
			expect(here!.to < there!.from || there!.to < here!.from, `${check}, ${demand}`).toBe(true);
		}
	});

	it('says of every check that reads apart on other machines that it does', () => {
		const said = new Set(pointsOf(list));
		for (const check of met.checks.filter(({ way }) => way !== 'ask')) {
			const other = known.checks.find(({ id }) => id === check.id);
			for (const demand of check.under.filter((one) => other?.under.includes(one) && !said.has(`${check.id}/${one}`))) {
				const [here, there] = [spanOf(met, check, demand), spanOf(known, other!, demand)];
				const isApart = check.words
					? !wordsFrom(check, here).some((word) => wordsFrom(other!, there).includes(word))
					: here.most < there.least || there.most < here.least;
				expect(isApart, `${check.id}, ${demand}`).toBe(false);
			}
		}
	});
});

const wordsFrom = ({ words }: Check, { least, most }: { least: number; most: number }) =>
	words!.slice(least, most + 1).map(({ word }) => word);

const runs = new Map<string, Quantities[]>();
/** Other machines than the product's own sample. */
function freshRuns(pack: Pack, demand: Demand): Quantities[] {
	const key = `${pack.hash}/${demand}`;
	if (!runs.has(key)) {
		const machines = Array.from({ length: 90 }, (_, n) => sampleMachine(pack, 1 + n, { fault: 'none' }).sound);
		runs.set(
			key,
			machines.map((machine) => pack.model.settle(machine, demand))
		);
	}
	return runs.get(key)!;
}

/** Worked out afresh: quantiles between two values, as the instrument rounds them. */
function spanOf(pack: Pack, check: Check, demand: Demand) {
	const values = freshRuns(pack, demand)
		.map((run) => run[check.reads]!)
		.sort((a, b) => a - b);
	const resolution = pack.instruments.find(({ id }) => id === check.instrument)?.resolution;
	const at = (share: number) => {
		const place = share * (values.length - 1);
		const [below, above] = [values[Math.floor(place)]!, values[Math.ceil(place)]!];
		const value = below === above ? below : below + (above - below) * (place % 1);
		return check.words ? bandOf(check, value) : resolution ? Math.round(value / resolution) : value;
	};
	return { from: at(0.05), to: at(0.95), least: at(0), most: at(1) };
}

describe('a family beside itself', () => {
	it.each(packs.map((pack) => [pack.family.id, pack] as const))('%s does not differ, nor from the same under another name', (_, pack) => {
		expect(differencesOf(pack, [pack]).list).toEqual([]);
		const twin: Pack = { ...pack, family: { ...pack.family, id: 'twin', short: 'Twin' } };
		const { list, sequences } = differencesOf(twin, [pack]);
		expect(list).toEqual([]);
		expect(sequences.flatMap(({ sides }) => sides.flatMap(({ steps }) => steps)).every(({ is }) => is === 'same')).toBe(true);
	});

	it('is nothing to compare with where none is known', () => {
		expect(() => differencesOf(packs[0]!, [])).toThrow(RangeError);
	});
});

describe('several known families', () => {
	it('leave only what differs from each of them, and weigh what is missing by how many have it', () => {
		const [met, known] = packs as [Pack, Pack];
		// A family that is the one met in all but its drawing and its checks knows no reading that is new.
		const like: Pack = { ...met, family: { ...met.family, id: 'like', short: 'Like' } };
		const alone = differencesOf(met, [known]).list;
		const both = differencesOf(met, [known, like]).list;
		expect(both.filter(({ side }) => side !== 'known')).toEqual([]);
		const missing = both.filter(({ side }) => side === 'known');
		expect(missing.map(({ id }) => id).toSorted()).toEqual(
			alone
				.filter(({ side }) => side === 'known')
				.map(({ id }) => id)
				.toSorted()
		);
		for (const one of missing) expect(one.misleads).toBe(alone.find(({ kind, id }) => kind === one.kind && id === one.id)!.misleads / 2);
	});
});

describe('the pump with a tap open (common practice 1, 13 and 14)', () => {
	const named = (id: string) => packs.find(({ family }) => family.id === id)!;
	const [plate, coil] = [named('combi-plate-primary'), named('combi-tap-coil')];

	it('stands still and is sound in one, where in the other it condemns', () => {
		const first = readings(differencesOf(coil, [plate]).list).filter(({ check }) => /pump/.test(check));
		expect(first.map(({ check }) => check).toSorted()).toEqual(['listen-pump', 'measure-pump-volts', 'stop-pump-spindle']);
		for (const one of first) {
			expect(one.demands).toEqual(['tap']);
			expect(one.there[0]!.goesWith).toContain('Pump seized');
			expect(one.misleads).toBeGreaterThan(misleads.reading.least + misleads.reading.condemns);
		}
		expect(first.find(({ check }) => check === 'listen-pump')).toMatchObject({ here: 'silent' });
	});

	it('runs and is sound in the other, where here it is a fault of the board', () => {
		const volts = readings(differencesOf(plate, [coil]).list).find(({ check }) => check === 'measure-pump-volts')!;
		expect(volts.there[0]).toMatchObject({ reads: '0 V', goesWith: ['Board drives the pump all the time'] });
	});
});
