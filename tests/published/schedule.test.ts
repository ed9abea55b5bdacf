/**
 * Our own schedule, held against the vectors of FSRS-6 that apply to how we call the library: state and interval alone, in whole days, with
 * same-day reviews and without steps, chance or an order forced on the choices.
 *
 * Stability, difficulty and days after each review of vectors 1 to 3: source (asserted in py-fsrs and ts-fsrs) with the states between
 * computed. Vector 4 as py-fsrs has it with no steps: computed. Vectors 5 and 8 at decay 0.2: source. 6, 8 and 9: computed.
 */
import { describe, expect, it } from 'vitest';
import type { Recall } from '#shared/marking/recall.ts';
import {
	defaultScheduler,
	intervalDays,
	memoryAfter,
	recallAfter,
	schedulerVersion,
	strengthAfter,
	type Strength
} from '#shared/review/memory/schedule.ts';
import { startOfDay } from '#shared/review/memory/learner-day.ts';
import type { Memory } from '#shared/review/memory/memory.ts';

const { parameters } = defaultScheduler;
/** Our recalls by the number of the grade. Fluent counts as the fourth only after a fluent one, so it is given one. */
const recallOfGrade: Record<1 | 2 | 3 | 4, Recall> = { 1: 'lost', 2: 'laboured', 3: 'sound', 4: 'fluent' };
const graded = (before: Strength | null, days: number, grade: 1 | 2 | 3 | 4): Strength =>
	strengthAfter(before && { ...before, shown: 'fluent' }, days, recallOfGrade[grade], parameters);

const zone = 'Europe/London';
/** Half past eight in the evening of a day. */
const evening = (day: number) => startOfDay(20_000 + day, zone) + 16.5 * 3_600_000;

describe('the model', () => {
	it('is FSRS-6 with its 21 default parameters (source, exact)', () => {
		expect(parameters).toEqual([
			0.212, 1.2931, 2.3065, 8.2956, 6.4133, 0.8334, 3.0194, 0.001, 1.8722, 0.1666, 0.796, 1.4835, 0.0614, 0.2629, 1.6483, 0.6014, 1.8729,
			0.5425, 0.0912, 0.0658, 0.1542
		]);
		expect(schedulerVersion).toMatch(/FSRS-6/);
		expect(schedulerVersion).toMatch(/ts-fsrs v\d+\.\d+\.\d+/);
	});
});

describe("vector 1: thirteen reviews, by the learner's evenings", () => {
	// Grade, day of review, stability, difficulty, and days to the next; null where the published run takes a step of minutes.
	const rows = [
		[3, 0, 2.3065, 2.11810397, null],
		[3, 0, 2.3065, 2.11121424, 2],
		[3, 2, 10.97104786, 2.1043314, 11],
		[3, 13, 46.31685657, 2.09745544, 46],
		[3, 59, 162.99981459, 2.09058635, 163],
		[3, 222, 497.87655983, 2.08372413, 498],
		[1, 720, 6.8904125, 7.38320232, null],
		[1, 720, 2.15459837, 9.12510476, null],
		[3, 720, 2.15459837, 9.11120802, 2],
		[3, 722, 3.98312343, 9.09732518, 4],
		[3, 726, 7.23625465, 9.08345622, 7],
		[3, 733, 12.48304383, 9.06960113, 12],
		[3, 745, 20.77035737, 9.0557599, 21]
	] as const;

	it('gives the published states and intervals at a desired recall of 0.9', () => {
		const scheduler = { ...defaultScheduler, retention: 0.9, zone };
		let memory: Memory | null = null;
		rows.forEach(([grade, day, stability, difficulty, days], index) => {
			// A few minutes later each time, as reviews of one evening are.
			memory = memoryAfter(
				memory,
				{ skill: 'a/b', at: evening(day) + index * 60_000, recall: recallOfGrade[grade], minutes: 6 },
				scheduler
			);
			expect(Math.abs(memory.stability - stability), `stability after ${index + 1}`).toBeLessThan(1e-4);
			expect(Math.abs(memory.difficulty - difficulty), `difficulty after ${index + 1}`).toBeLessThan(1e-6);
			if (days !== null) expect(memory.due, `due after ${index + 1}`).toBe(startOfDay(20_000 + day + days, zone));
		});
	});
});

describe('vector 2: six reviews at gaps of 0, 0, 1, 3, 8 and 21 days', () => {
	const steps = [
		[1, 0, 0.212, 6.4133],
		[3, 0, 0.246689, 6.402115],
		[3, 1, 2.021477, 6.390941],
		[3, 3, 7.863699, 6.379779],
		[3, 8, 21.917713, 6.368627],
		[3, 21, 53.62691, 6.3574867]
	] as const;

	it('gives each state', () => {
		let strength: Strength | null = null;
		for (const [grade, days, stability, difficulty] of steps) {
			strength = graded(strength, days, grade);
			expect(Math.abs(strength.stability - stability)).toBeLessThan(1e-4);
			expect(Math.abs(strength.difficulty - difficulty)).toBeLessThan(1e-4);
		}
	});
});

describe('vector 3: the first review', () => {
	it.each([
		['lost', 0.212, 6.4133],
		['laboured', 1.2931, 5.11217071],
		['sound', 2.3065, 2.11810397]
	] as const)('shown %s', (recall, stability, difficulty) => {
		const first = strengthAfter(null, 0, recall, parameters);
		expect(Math.abs(first.stability - stability)).toBeLessThan(1e-8);
		expect(Math.abs(first.difficulty - difficulty)).toBeLessThan(1e-8);
	});

	it('shown fluent counts as sound: once is not twice running (our own rule)', () => {
		const { stability, difficulty } = strengthAfter(null, 0, 'fluent', parameters);
		expect({ stability, difficulty, shown: 'sound' }).toEqual(strengthAfter(null, 0, 'sound', parameters));
	});
});

describe('vector 4: on due dates, as py-fsrs has it without steps', () => {
	it('gives intervals of 2, 11, 32, 146, 4, 10 and 22 days', () => {
		let strength: Strength | null = null;
		let days = 0;
		const intervals = ([3, 3, 2, 4, 1, 3, 3] as const).map((grade) => {
			strength = graded(strength, days, grade);
			days = intervalDays(strength.stability, 0.9, parameters);
			return days;
		});
		expect(intervals).toEqual([2, 11, 32, 146, 4, 10, 22]);
	});
});

describe('vectors 5, 6 and 8: interval and curve', () => {
	it('a stability of one day gives the published intervals', () => {
		// At 0.1 it would be 3,116,766 days; no interval is let grow past 36,500.
		const days = [0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1].map((retention) => intervalDays(1, retention, parameters));
		expect(days).toEqual([34_793, 2508, 387, 90, 27, 9, 3, 1, 1]);
	});

	it.each([
		[0.8, 3.31596],
		[0.85, 1.906426],
		[0.9, 1],
		[0.95, 0.402559]
	])('recall falls to %f after %f times the stability', (retention, ratio) => {
		expect(Math.abs(recallAfter(ratio * 10, 10, parameters) - retention)).toBeLessThan(1e-6);
		// Whole days: half of one in ten thousand is allowed.
		expect(Math.abs(intervalDays(10_000, retention, parameters) / 10_000 - ratio)).toBeLessThan(0.5e-4 + 1e-6);
	});

	it.each([
		[0, 1],
		[1, 0.985682],
		[5, 0.940344],
		[10, 0.9],
		[30, 0.809388],
		[100, 0.692827]
	])('after %i days a stability of 10 leaves %f', (days, recall) => {
		expect(Math.abs(recallAfter(days, 10, parameters) - recall)).toBeLessThan(1e-6);
	});

	it.each([
		[2, 0.84028935],
		[3, 0.7985001]
	])('at a decay of 0.2, %i days and a stability of one leave %f', (days, recall) => {
		expect(Math.abs(recallAfter(days, 1, parameters.with(20, 0.2)) - recall)).toBeLessThan(1e-6);
	});
});

describe('vector 9: one step from a stability of 10 and a difficulty of 5', () => {
	const from: Strength = { stability: 10, difficulty: 5, shown: 'fluent' };
	const rows = [
		// A laboured one on the same day keeps 10 in ts-fsrs; py-fsrs lowers it to 5.24907.
		[0, [3.05125, 10, 10, 15.53431]],
		[1, [1.20865, 11.83257, 13.04718, 15.70706]],
		[5, [1.30243, 17.77532, 22.9287, 34.21415]],
		[10, [1.39199, 23.24688, 32.02673, 51.25386]],
		[20, [1.52186, 30.86752, 44.69823, 74.98632]]
	] as const;

	it.each(rows)('after %i days', (days, stabilities) => {
		([1, 2, 3, 4] as const).forEach((grade, index) => {
			const { stability, difficulty } = graded(from, days, grade);
			expect(Math.abs(stability - stabilities[index])).toBeLessThan(1e-4);
			expect(Math.abs(difficulty - [8.34176, 6.666, 4.99023, 3.31446][index])).toBeLessThan(1e-4);
		});
	});
});
