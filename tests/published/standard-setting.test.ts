/** A pass mark from judges: an example of our own with its figures computed from the published formula; six decimals, so 0.000001 either side. */
import { describe, expect, it } from 'vitest';
import { angoff } from '#shared/assessment/standard.ts';
import { within } from './within.ts';

const judges = [
	[0.6, 0.7, 0.5, 0.8],
	[0.5, 0.65, 0.55, 0.7],
	[0.7, 0.75, 0.45, 0.85]
];
const computed = 0.000_001;

describe('three judges of four items', () => {
	const standard = angoff(judges, [1, 1, 1, 1])!;

	it('come to sums of 2.6, 2.4 and 2.75, and to their mean', () => {
		[2.6, 2.4, 2.75].forEach((sum, judge) => within(standard.byJudge[judge], sum, computed, `sum of judge ${judge}`));
		within(standard.cut, 2.583333, computed, 'cut');
		expect(standard.outOf).toBe(4);
		within(standard.percent, 64.583333, computed, 'cut [percent]');
	});

	it('have a standard error of 0.101379', () => {
		within(standard.standardError!, 0.101379, computed, 'standard error');
		within(standard.standardErrorPercent!, 2.534484, 0.00001, 'standard error [percent]');
	});
});
