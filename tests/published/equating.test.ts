/**
 * Section 6 of the Law School Admission Test equated to section 7 as if two random groups had sat them: patterns of Bock and Lieberman 1970
 * as the statistics packages mirt and ltm carry them (lsat.ts). No package's results are taken here: the formulas are published (see
 * equating.ts), the figures computed from them, 0.00001 either side, and half of the last decimal given for the standard errors.
 */
import { describe, expect, it } from 'vitest';
import { equated, equating, equatingError } from '#shared/assessment/equating.ts';
import { section6, section7, totals } from './lsat.ts';
import { within } from './within.ts';

const line = equating(totals(section6), totals(section7)).value!;
const computed = 0.000_01;

describe('section 6 in terms of section 7', () => {
	it('is a line of the computed slope and intercept', () => {
		within(line.slope, 1.1579996, computed, 'slope');
		within(line.intercept, -0.7154005, computed, 'intercept');
		within(line.shift, -0.112, computed, 'difference of means');
	});

	it.each([
		[0, -0.7154, 0.1498],
		[1, 0.4426, 0.1163],
		[2, 1.6006, 0.0855],
		[3, 2.7586, 0.0614],
		[4, 3.9166, 0.054],
		[5, 5.0746, 0.0689]
	])('makes of %i a %f with a standard error of %f', (score, expected, error) => {
		within(equated(line, score), expected, computed, 'equated score');
		within(equatingError(line, score), error, 0.000_051, 'standard error');
	});

	it('comes back to where it began', () => {
		const back = equating(totals(section7), totals(section6)).value!;
		for (const score of [0, 2, 5]) expect(equated(back, equated(line, score))).toBeCloseTo(score, 9);
	});
});
