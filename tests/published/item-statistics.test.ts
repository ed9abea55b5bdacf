/**
 * Classical item statistics of sections 6 and 7 of the Law School Admission Test (lsat.ts).
 *
 * Facilities, means, deviations, score counts, corrected item-total correlations, alphas, alphas without an item and standard errors of
 * measurement: as `itemstats` of the general-purpose statistics package mirt for R gives them for these tables (read), three decimals, so
 * 0.0005 either side; the alpha of section 6, 0.295, also stands in the documentation of the package ltm for R. Figures of six decimals and
 * all intervals: computed from the published formulas, 0.000001 either side.
 */
import { describe, expect, it } from 'vitest';
import { fisherInterval } from '#shared/assessment/correlation.ts';
import { distributionOf } from '#shared/assessment/distribution.ts';
import { differenceError } from '#shared/assessment/fairness.ts';
import { bonettInterval } from '#shared/assessment/reliability.ts';
import { itemStatistics } from '#shared/assessment/statistics.ts';
import { section6, section7, totals } from './lsat.ts';
import { within } from './within.ts';

const outOf = [1, 1, 1, 1, 1];
const published = 0.0005;
const computed = 0.000_001;

describe.each([
	{
		section: 6,
		rows: section6,
		facility: [0.924, 0.709, 0.553, 0.763, 0.87],
		mean: 3.819,
		sd: 1.035,
		exactSd: 1.035041,
		counts: [3, 20, 85, 237, 357, 298],
		correctedR: [0.113, 0.153, 0.173, 0.144, 0.122],
		alpha: 0.295,
		exactAlpha: 0.294997,
		without: [0.275, 0.238, 0.217, 0.246, 0.266],
		error: 0.869,
		exactError: 0.869067,
		bonett: [0.222333, 0.360872]
	},
	{
		section: 7,
		rows: section7,
		facility: [0.828, 0.658, 0.772, 0.606, 0.843],
		mean: 3.707,
		sd: 1.199,
		exactSd: 1.198577,
		counts: [12, 40, 114, 205, 321, 308],
		correctedR: [0.246, 0.247, 0.313, 0.223, 0.175],
		alpha: 0.453,
		exactAlpha: 0.453409,
		without: [0.396, 0.394, 0.345, 0.415, 0.438],
		error: 0.886,
		exactError: 0.88613,
		bonett: [0.397072, 0.504481]
	}
])('section $section', ({ rows, ...expected }) => {
	const found = itemStatistics(rows, outOf);

	it('was answered by 1000, with the published counts of scores', () => {
		expect(found.sitters).toBe(1000);
		expect(distributionOf(totals(rows), 5, 6).map(({ count }) => count)).toEqual(expected.counts);
		expect(found.distribution.reduce((sum, { count }) => sum + count, 0)).toBe(1000);
	});

	it('has the published mean and standard deviation', () => {
		within(found.mean!, expected.mean, published, 'mean');
		within(found.sd!, expected.sd, published, 'standard deviation');
		within(found.sd!, expected.exactSd, computed, 'standard deviation');
	});

	it.each([0, 1, 2, 3, 4])('item %i has the published facility, corrected correlation and alpha without it', (item) => {
		const { facility, discrimination, alphaWithout } = found.items[item];
		within(facility.value!.share!, expected.facility[item], published, 'facility');
		within(discrimination.value!.r, expected.correctedR[item], published, 'corrected item-total correlation');
		expect(discrimination.value!.greyed).toBe(false);
		within(alphaWithout.value!, expected.without[item], published, 'alpha without the item');
	});

	it('has the published alpha and standard error of measurement, with the interval of alpha', () => {
		const { alpha, interval, standardError } = found.reliability.value!;
		within(alpha, expected.alpha, published, 'alpha');
		within(alpha, expected.exactAlpha, computed, 'alpha');
		within(standardError, expected.error, published, 'standard error of measurement');
		within(standardError, expected.exactError, computed, 'standard error of measurement');
		within(interval.value!.low, expected.bonett[0], computed, 'lower bound of alpha');
		within(interval.value!.high, expected.bonett[1], computed, 'upper bound of alpha');
	});
});

/** Computed from the published formulas, two decimals; Wilson's interval at the same numbers stands in wilson.test.ts. */
describe('what so many sitters can bear', () => {
	it.each([
		[20, -0.16, 0.66],
		[30, -0.07, 0.6],
		[50, 0.02, 0.53],
		[100, 0.11, 0.47],
		[200, 0.17, 0.42]
	])('a correlation of 0.30 in %i lies between %f and %f', (sitters, low, high) => {
		const interval = fisherInterval(0.3, sitters).value!;
		expect(interval.low).toBeCloseTo(low, 2);
		expect(interval.high).toBeCloseTo(high, 2);
	});

	it.each([
		[20, 0.61, 0.9],
		[30, 0.66, 0.88],
		[50, 0.7, 0.87],
		[100, 0.73, 0.85]
	])('an alpha of 0.80 of 20 items in %i lies between %f and %f', (sitters, low, high) => {
		const interval = bonettInterval(0.8, 20, sitters).value!;
		expect(interval.low).toBeCloseTo(low, 2);
		expect(interval.high).toBeCloseTo(high, 2);
	});

	it.each([
		[20, 3.16],
		[50, 2],
		[100, 1.41],
		[200, 1]
	])('means of two variants with %i sitters each and a deviation of 10 differ with a standard error of %f', (sitters, error) => {
		expect(differenceError(10, sitters, 10, sitters)).toBeCloseTo(error, 2);
	});
});
