/** What must hold of the schedule whatever the figures. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { recalls, type Recall } from '#shared/marking/recall.ts';
import { dayOf, startOfDay } from '#shared/review/memory/learner-day.ts';
import {
	defaultScheduler,
	intervalDays,
	isDue,
	memoryAfter,
	recallAfter,
	recallAt,
	remember,
	strengthAfter
} from '#shared/review/memory/schedule.ts';
import type { Strength } from '#shared/review/memory/schedule.ts';
import { anyLog, anyRecall, anyScheduler } from './any-log.ts';

const { parameters } = defaultScheduler;
const anyStrength: fc.Arbitrary<Strength> = fc.record({
	stability: fc.double({ min: 0.1, max: 2000, noNaN: true }),
	difficulty: fc.double({ min: 1, max: 10, noNaN: true }),
	shown: anyRecall
});
const anyDays = fc.integer({ min: 0, max: 400 });
/** The library rounds what it keeps to eight decimals. */
const rounding = 1e-8;
const stabilityAfter = (from: Strength, days: number, recall: Recall) => strengthAfter(from, days, recall, parameters).stability;

describe('recall', () => {
	it('falls with time and rises with stability', () => {
		fc.assert(
			fc.property(fc.integer({ min: 1, max: 1000 }), fc.double({ min: 0.1, max: 1000, noNaN: true }), (days, stability) => {
				expect(recallAfter(days, stability, parameters)).toBeLessThan(recallAfter(days - 1, stability, parameters));
				expect(recallAfter(days, stability * 1.1, parameters)).toBeGreaterThan(recallAfter(days, stability, parameters));
			})
		);
	});

	it('is whole when just shown, and 0.9 after its stability', () => {
		expect(recallAfter(0, 5, parameters)).toBe(1);
		expect(recallAfter(5, 5, parameters)).toBeCloseTo(0.9, 6);
	});

	it("falls by the learner's days: the same all through one, less on the next", () => {
		fc.assert(
			fc.property(anyLog(1), anyScheduler, fc.integer({ min: 1, max: 60 }), ([review], scheduler, days) => {
				const memory = memoryAfter(null, review, scheduler);
				const day = dayOf(review.at, scheduler.zone) + days;
				const [start, next] = [startOfDay(day, scheduler.zone), startOfDay(day + 1, scheduler.zone)];
				expect(recallAt(memory, start, scheduler)).toBe(recallAt(memory, next - 1, scheduler));
				expect(recallAt(memory, next, scheduler)).toBeLessThan(recallAt(memory, start, scheduler));
			})
		);
	});
});

describe('a review', () => {
	it('never weakens what was shown, and never strengthens what was lost', () => {
		fc.assert(
			fc.property(anyStrength, anyDays, (from, days) => {
				for (const recall of ['laboured', 'sound', 'fluent'] as const)
					expect(stabilityAfter(from, days, recall)).toBeGreaterThanOrEqual(from.stability - rounding);
				expect(stabilityAfter(from, days, 'lost')).toBeLessThanOrEqual(from.stability + rounding);
			})
		);
	});

	it('strengthens no less the better it was shown, and leaves it no harder', () => {
		fc.assert(
			fc.property(anyStrength, anyDays, (from, days) => {
				const after = recalls.map((recall) => strengthAfter(from, days, recall, parameters));
				for (let index = 1; index < after.length; index++) {
					expect(after[index].stability).toBeGreaterThanOrEqual(after[index - 1].stability);
					expect(after[index].difficulty).toBeLessThanOrEqual(after[index - 1].difficulty);
				}
			})
		);
	});

	it('strengthens more the later a success comes', () => {
		fc.assert(
			fc.property(anyStrength, fc.integer({ min: 1, max: 400 }), fc.integer({ min: 1, max: 100 }), (from, days, later) => {
				for (const recall of ['laboured', 'sound', 'fluent'] as const)
					expect(stabilityAfter(from, days + later, recall)).toBeGreaterThanOrEqual(stabilityAfter(from, days, recall));
			})
		);
	});

	it('keeps difficulty within 1 and 10, and stability above nought', () => {
		fc.assert(
			fc.property(anyLog(), (log) => {
				for (const { stability, difficulty } of remember(log, defaultScheduler).values()) {
					expect(difficulty).toBeGreaterThanOrEqual(1);
					expect(difficulty).toBeLessThanOrEqual(10);
					expect(stability).toBeGreaterThanOrEqual(0.001);
				}
			})
		);
	});

	it('ten fluent in one day after another fluent leave no difficulty at all', () => {
		let strength = strengthAfter(null, 0, 'fluent', parameters);
		for (let time = 0; time < 10; time++) strength = strengthAfter(strength, 0, 'fluent', parameters);
		expect(strength.difficulty).toBe(1);
	});

	it("refuses days that are none, and parameters that are not the model's", () => {
		expect(() => strengthAfter(null, -1, 'sound', parameters)).toThrow(RangeError);
		expect(() => strengthAfter(null, 0.5, 'sound', parameters)).toThrow(RangeError);
		expect(() => strengthAfter(null, 0, 'sound', parameters.slice(1))).toThrow(RangeError);
		expect(() => strengthAfter(null, 0, 'sound', parameters.with(3, Number.NaN))).toThrow(RangeError);
	});
});

describe('fluent', () => {
	it('counts above sound only where the review before was fluent too', () => {
		fc.assert(
			fc.property(anyStrength, fc.integer({ min: 1, max: 400 }), (from, days) => {
				const fluent = stabilityAfter(from, days, 'fluent');
				if (from.shown === 'fluent') expect(fluent).toBeGreaterThan(stabilityAfter(from, days, 'sound'));
				else expect(fluent).toBe(stabilityAfter(from, days, 'sound'));
			})
		);
	});
});

describe('when a skill is due', () => {
	it('a higher desired recall never brings it back later', () => {
		const anyRetention = fc.double({ min: 0.7, max: 0.97, noNaN: true });
		fc.assert(
			fc.property(anyLog(), anyRetention, anyRetention, (log, one, other) => {
				const [low, high] = [Math.min(one, other), Math.max(one, other)];
				const early = remember(log, { ...defaultScheduler, retention: high });
				const late = remember(log, { ...defaultScheduler, retention: low });
				for (const [skill, memory] of early) expect(memory.due).toBeLessThanOrEqual(late.get(skill)!.due);
			})
		);
	});

	it('is the start of a day, at least one after it was shown, when recall is nearest to what is desired', () => {
		fc.assert(
			fc.property(anyLog(), anyScheduler, (log, scheduler) => {
				for (const memory of remember(log, scheduler).values()) {
					const day = dayOf(memory.due, scheduler.zone);
					const days = day - dayOf(memory.last, scheduler.zone);
					expect(memory.due).toBe(startOfDay(day, scheduler.zone));
					expect(days).toBeGreaterThanOrEqual(1);
					expect(isDue(memory, memory.due)).toBe(true);
					expect(isDue(memory, memory.due - 1)).toBe(false);
					// Half a day either way is what rounding to whole days can leave; no interval is let grow past a hundred years.
					if (days === 36_500) continue;
					expect(recallAfter(days + 0.5, memory.stability, parameters)).toBeLessThanOrEqual(scheduler.retention + 1e-6);
					if (days > 1) expect(recallAfter(days - 0.5, memory.stability, parameters)).toBeGreaterThanOrEqual(scheduler.retention - 1e-6);
				}
			})
		);
	});

	it('is no later the weaker the memory', () => {
		fc.assert(
			fc.property(fc.double({ min: 0.001, max: 3000, noNaN: true }), fc.double({ min: 1, max: 2, noNaN: true }), (stability, times) => {
				expect(intervalDays(stability, 0.85, parameters)).toBeLessThanOrEqual(intervalDays(stability * times, 0.85, parameters));
			})
		);
		expect(() => intervalDays(1, 0, parameters)).toThrow(RangeError);
		expect(() => intervalDays(1, 1.1, parameters)).toThrow(RangeError);
	});
});

describe('two reviews around the turn of the day', () => {
	const sound = (at: string) => ({ skill: 'a/gas', at: Date.parse(at), recall: 'sound' as const, minutes: 5 });
	const after = (first: string, second: string) =>
		memoryAfter(memoryAfter(null, sound(first), defaultScheduler), sound(second), defaultScheduler).stability;

	it('are of one day up to 04:00, though the date has changed, and of two after it', () => {
		expect(after('2026-01-05T23:00:00Z', '2026-01-06T03:59:00Z')).toBe(after('2026-01-05T20:00:00Z', '2026-01-05T20:10:00Z'));
		expect(after('2026-01-05T23:00:00Z', '2026-01-06T04:01:00Z')).toBe(after('2026-01-05T20:00:00Z', '2026-01-06T20:00:00Z'));
		expect(after('2026-01-05T23:00:00Z', '2026-01-06T04:01:00Z')).toBeGreaterThan(after('2026-01-05T23:00:00Z', '2026-01-06T03:59:00Z'));
	});

	it('over a clock change the same evening is one day later, not 23 or 25 hours', () => {
		expect(after('2026-03-28T20:00:00Z', '2026-03-29T19:00:00Z')).toBe(after('2026-01-05T20:00:00Z', '2026-01-06T20:00:00Z'));
		expect(after('2026-10-24T19:00:00Z', '2026-10-25T20:00:00Z')).toBe(after('2026-01-05T20:00:00Z', '2026-01-06T20:00:00Z'));
	});
});
