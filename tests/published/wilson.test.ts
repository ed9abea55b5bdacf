/**
 * Wilson's interval.
 *
 * Worked examples: Newcombe 1998, Two-sided confidence intervals for the single proportion, Statistics in Medicine 17, 857-872, table I, the
 * score method without correction (*from memory*; the same figures were read in a public program's tests that cite the table). Four
 * decimals, so 0.00005 either side. At a share of 0.70 by number of cases: computed from the published formula, two decimals.
 */
import { describe, expect, it } from 'vitest';
import { shareOf } from '#shared/quantity/wilson.ts';
import { within } from './within.ts';

describe('a share counted in few cases', () => {
	it.each([
		[81, 263, 0.2553, 0.3662],
		[15, 148, 0.0624, 0.1605],
		[0, 20, 0, 0.1611],
		[1, 29, 0.0061, 0.1718]
	])('of %i in %i lies between the published %f and %f', (count, of, low, high) => {
		const share = shareOf(count, of);
		within(share.low, low, 0.000_05, 'low');
		within(share.high, high, 0.000_05, 'high');
	});

	it.each([
		[20, 0.48, 0.85],
		[30, 0.52, 0.83],
		[50, 0.56, 0.81],
		[100, 0.6, 0.78],
		[200, 0.63, 0.76]
	])('of 0.70 in %i lies between %f and %f', (of, low, high) => {
		const share = shareOf(0.7 * of, of);
		expect(share.low).toBeCloseTo(low, 2);
		expect(share.high).toBeCloseTo(high, 2);
	});

	it('is never beyond 0 and 1, and holds all of them where there is no case', () => {
		expect(shareOf(0, 5)).toMatchObject({ share: 0, low: 0 });
		expect(shareOf(5, 5)).toMatchObject({ share: 1, high: 1 });
		expect(shareOf(0, 0)).toEqual({ count: 0, of: 0, share: null, low: 0, high: 1 });
		expect(() => shareOf(3, 2)).toThrow(RangeError);
	});
});
