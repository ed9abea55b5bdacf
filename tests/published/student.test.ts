/**
 * Student's t and the difference of two means by Welch.
 *
 * Quantiles: any printed table of t (three decimals, *from memory*), so 0.0005 either side.
 * Sleep data: Student 1908, The probable error of a mean, Biometrika 6, 1-25; ten more hours of sleep each by two drugs, with the degrees of
 * freedom and the interval that the documentation of the statistics language R prints for them as two groups (*from memory*).
 * Screws: worked example of an encyclopaedia's article on the t test (read; 0.04849 and 7.031, rounded as there).
 */
import { sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { differenceError, differenceOf } from '#shared/assessment/fairness.ts';
import { t95, welchFreedom } from '#shared/assessment/student.ts';
import { within } from './within.ts';

describe('the deviate of 95 % by Student', () => {
	it.each([
		[9, 2.262],
		[10, 2.228],
		[12, 2.179],
		[15, 2.131],
		[18, 2.101],
		[20, 2.086],
		[30, 2.042],
		[40, 2.021],
		[60, 2],
		[120, 1.98]
	])('with %i degrees of freedom is %f', (freedom, t) => within(t95(freedom), t, 0.0005, 't'));

	it('comes down to the normal one, and is not given where the series is off', () => {
		within(t95(1e9), 1.959964, 0.000_001, 't');
		expect(() => t95(8.9)).toThrow(RangeError);
	});
});

const summary = (some: number[]) => [sampleStandardDeviation(some), some.length] as const;

describe('two groups by Welch', () => {
	it('have the published freedom and interval: hours of sleep', () => {
		const first = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2];
		const second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];
		within(welchFreedom(...summary(first), ...summary(second)), 17.776, 0.0005, 'degrees of freedom');
		const { difference, interval, stands } = differenceOf(first, second).value!;
		within(difference, 0.75 - 2.33, 1e-9, 'difference');
		within(interval.low, -3.3654832, 0.000_01, 'low');
		within(interval.high, 0.2054832, 0.000_01, 'high');
		expect(stands).toBe(false);
	});

	it('have the published error and freedom: weights of screws', () => {
		const [a, b] = [summary([30.02, 29.99, 30.11, 29.97, 30.01, 29.99]), summary([29.89, 29.93, 29.72, 29.98, 30.02, 29.98])];
		within(differenceError(...a, ...b), 0.04849, 0.000_005, 'standard error');
		within(welchFreedom(...a, ...b), 7.031, 0.0005, 'degrees of freedom');
	});
});
