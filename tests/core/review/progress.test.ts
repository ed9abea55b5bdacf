import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sureness } from '#shared/callout/action.ts';
import { startOfDay } from '#shared/review/memory/learner-day.ts';
import { calibration, figuresOf, figuresOverTime, minutesByWeek, type Dated } from '#shared/review/progress/progress.ts';
import { recallAfter, recallAt } from '#shared/review/memory/schedule.ts';
import { skillsMap } from '#shared/review/progress/skills-map.ts';
import { shownWords } from '$lib/practice/words.ts';
import { anyLog } from './any-log.ts';
import { evening, family, nightOf, zone } from './nights.ts';

const plain: Omit<Dated, 'at'> = {
	packHash: 'abc',
	seed: 7,
	family: 'a',
	area: 'gas',
	minutes: 40,
	spent: 30,
	currency: 'GBP',
	cured: true,
	soundParts: 0,
	breaches: 0,
	dangerous: 0,
	verifiedFirst: true,
	proved: true,
	stated: []
};
const anyMeasures: fc.Arbitrary<Dated> = fc.record({
	...Object.fromEntries(Object.entries(plain).map(([key, value]) => [key, fc.constant(value)])),
	at: fc.integer({ min: 0, max: 1_000_000 }),
	soundParts: fc.integer({ min: 0, max: 3 }),
	breaches: fc.integer({ min: 0, max: 3 }),
	verifiedFirst: fc.constantFrom(true, false, null),
	proved: fc.constantFrom(true, false, null),
	stated: fc.array(fc.record({ sure: fc.constantFrom(...sureness), cured: fc.boolean() }), { maxLength: 4 })
}) as unknown as fc.Arbitrary<Dated>;

describe('the map of skills', () => {
	const taught = [family('a', ['gas', 'air']), family('b', ['gas'])];
	const night = nightOf({
		taught,
		log: [
			{ skill: 'a/gas', at: evening(-20), recall: 'sound', minutes: 6 },
			{ skill: 'drill/reading', at: evening(-1), recall: 'sound', minutes: 1 }
		]
	});
	const map = skillsMap(night.skills, night.memories, night.now, night.scheduler);

	it('has families across, areas down that any of them has, and the kinds of drill', () => {
		expect(map.families).toEqual(['a', 'b']);
		expect(map.rows.map(({ area, entries }) => [area, entries.map((entry) => entry?.skill.id ?? null)])).toEqual([
			['gas', ['a/gas', 'b/gas']],
			['air', ['a/air', null]]
		]);
		expect(map.drills.length).toBe(night.skills.filter(({ kind }) => kind === 'drill').length);
	});

	it('tells what was never tried from what is forgotten', () => {
		const [gas] = map.rows;
		expect(gas.entries[1]).toMatchObject({ remembered: null });
		expect(gas.entries[0]?.remembered).toMatchObject({ isDue: true, reviews: 1, lapses: 0, last: evening(-20) });
	});

	it('says how each was shown last, since one just lost is recalled as fully as one just held', () => {
		const shown = nightOf({
			taught,
			log: [
				{ skill: 'a/gas', at: evening(-20), recall: 'laboured', minutes: 6 },
				{ skill: 'a/air', at: evening(0), recall: 'lost', minutes: 6 },
				{ skill: 'b/gas', at: evening(-1), recall: 'sound', minutes: 6 }
			]
		});
		const { rows } = skillsMap(shown.skills, shown.memories, shown.now, shown.scheduler);
		const words = rows.map(({ entries }) => entries.map((entry) => (entry?.remembered ? shownWords(entry.remembered) : null)));
		expect(words).toEqual([
			['laboured on 27 January', 'sound last night'],
			['lost tonight', null]
		]);
		expect(rows[1].entries[0]?.remembered).toMatchObject({ now: 1, shown: 'lost' });
	});

	it('has recall now, in 7 and in 30 days, from the curve', () => {
		const memory = night.memories.find(({ skill }) => skill === 'a/gas')!;
		const { parameters } = night.scheduler;
		expect(map.rows[0].entries[0]?.remembered).toMatchObject({
			now: recallAt(memory, night.now, night.scheduler),
			in7Days: recallAfter(27, memory.stability, parameters),
			in30Days: recallAfter(50, memory.stability, parameters)
		});
	});
});

describe('minutes by week', () => {
	it('adds up to all minutes, in weeks from Monday to Monday without a gap, up to now', () => {
		fc.assert(
			fc.property(anyLog(), fc.integer({ min: 0, max: 40 }), (log, later) => {
				const now = log.at(-1)!.at + later * 86_400_000;
				const weeks = minutesByWeek(log, now, zone);
				const sum = (numbers: number[]) => numbers.reduce((all, one) => all + one, 0);
				expect(sum(weeks.map(({ minutes }) => minutes))).toBe(sum(log.map(({ minutes }) => minutes)));
				expect(sum(weeks.map(({ practices }) => practices))).toBe(log.filter(({ minutes }) => minutes > 0).length);
				if (weeks.length === 0) return;
				expect(weeks.at(-1)!.from).toBeLessThanOrEqual(now);
				expect(now - weeks.at(-1)!.from).toBeLessThan(7 * 86_400_000 + 3_600_000);
				weeks.slice(1).forEach(({ from }, index) => expect(Math.round((from - weeks[index].from) / 86_400_000)).toBe(7));
			})
		);
	});

	it('counts what was practised after midnight to the evening before, and shows weeks without any', () => {
		// Monday 12 January 2026 at 01:00 is still the Sunday of the week before.
		const log = ['2026-01-12T01:00:00Z', '2026-01-28T20:00:00Z'].map((at) => ({
			skill: 'a/gas',
			at: Date.parse(at),
			recall: 'sound' as const,
			minutes: 5
		}));
		const weeks = minutesByWeek(log, Date.parse('2026-01-29T20:00:00Z'), zone);
		expect(weeks.map(({ minutes }) => minutes)).toEqual([5, 0, 0, 5]);
		expect(weeks[0].from).toBe(startOfDay(Date.parse('2026-01-05T00:00:00Z') / 86_400_000, zone));
	});
});

describe('figures over time', () => {
	it('are one line a callout, in order of time, each over the last few', () => {
		fc.assert(
			fc.property(fc.array(anyMeasures, { maxLength: 30 }), fc.integer({ min: 1, max: 12 }), (measures, span) => {
				const figures = figuresOverTime(measures, span);
				const ordered = measures.toSorted((a, b) => a.at - b.at);
				expect(figures.map(({ at }) => at)).toEqual(ordered.map(({ at }) => at));
				figures.forEach(({ soundParts, verifiedFirst, proved }, index) => {
					const some = ordered.slice(Math.max(0, index - span + 1), index + 1);
					expect(soundParts * some.length).toBeCloseTo(
						some.reduce((sum, one) => sum + one.soundParts, 0),
						9
					);
					// What cannot be told of a callout counts neither way.
					expect(verifiedFirst.of).toBe(some.filter((one) => one.verifiedFirst !== null).length);
					expect(proved.count).toBe(some.filter((one) => one.proved === true).length);
				});
			})
		);
	});

	it('show a habit given up once it is out of the last few', () => {
		const careless = Array.from({ length: figuresOf }, (_, at) => ({ ...plain, at, soundParts: 2, verifiedFirst: false }));
		const careful = Array.from({ length: figuresOf }, (_, at) => ({ ...plain, at: 100 + at }));
		const figures = figuresOverTime([...careful, ...careless]);
		expect(figures[figuresOf - 1]).toMatchObject({ soundParts: 2, verifiedFirst: { share: 0 } });
		expect(figures.at(-1)).toMatchObject({ soundParts: 0, verifiedFirst: { share: 1 } });
	});
});

describe('calibration', () => {
	it('counts every remedy stated, once, under what was said of it', () => {
		fc.assert(
			fc.property(fc.array(anyMeasures, { maxLength: 20 }), (measures) => {
				const all = measures.flatMap(({ stated }) => stated);
				const told = calibration(measures);
				expect(told.map(({ sure }) => sure)).toEqual([...sureness]);
				for (const { sure, count, of, low, high, share } of told) {
					expect(of).toBe(all.filter((one) => one.sure === sure).length);
					expect(count).toBe(all.filter((one) => one.sure === sure && one.cured).length);
					if (share === null) expect([low, high]).toEqual([0, 1]);
					else expect(low <= share && share <= high).toBe(true);
				}
			})
		);
	});
});
