/** How often a variant that is as hard as the others is taken for another: counted on drawn sitters, by seed. */
import { describe, expect, it } from 'vitest';
import { differenceOf, enoughForComparison } from '#shared/assessment/fairness.ts';
import { chance, type Chance } from '#shared/quantity/random.ts';

const trials = 20_000;
/** Of a share of 0.05 in so many trials, 4 standard deviations. */
const byChance = 4 * Math.sqrt((0.05 * 0.95) / trials);

function falseAlarms(label: string, these: number, others: number, total: (drawn: Chance) => number): number {
	const drawn = chance(1, label, these, others);
	const some = (many: number) => Array.from({ length: many }, () => total(drawn));
	let stood = 0;
	for (let trial = 0; trial < trials; trial++) stood += Number(differenceOf(some(these), some(others)).value!.stands);
	return stood / trials;
}

describe('of fair variants', () => {
	it.each([
		[10, 10],
		[10, 30],
		[30, 10],
		[20, 20]
	])('with %i sitters against %i, one in twenty stands out', (these, others) => {
		const share = falseAlarms('normal', these, others, (drawn) => 60 + 15 * drawn.normal());
		expect(Math.abs(share - 0.05), `false alarms: ${share}`).toBeLessThan(byChance);
	});

	it('whose marks lie against full marks, not many more do', () => {
		const towardsFull = (drawn: Chance) => 100 * (1 - drawn.uniform() ** 3);
		for (const [these, others] of [
			[10, 10],
			[10, 30]
		] as const) {
			const share = falseAlarms('skewed', these, others, towardsFull);
			expect(share, `${these} against ${others}`).toBeGreaterThan(0.02);
			expect(share, `${these} against ${others}`).toBeLessThan(0.08);
		}
	});

	it('with fewer sitters, nothing is said of any', () => {
		const enough = Array.from({ length: enoughForComparison }, (_, n) => n);
		for (const few of [[], [40], [1, 99], enough.slice(1)]) {
			expect(differenceOf(few, enough)).toEqual({ value: null, why: expect.stringContaining('10 sitters') });
			expect(differenceOf(enough, few).value).toBeNull();
		}
	});

	it('in which all have the same total, nothing is said', () => {
		expect(differenceOf(Array(12).fill(40), Array(12).fill(60)).value).toBeNull();
	});

	it('of which one has all the same total, the other says how sure it is', () => {
		for (const totals of [[30, 31, 50, 52, 48, 41, 39, 60, 44, 47.1], Array.from({ length: 10 }, (_, n) => 0.1 * n)]) {
			expect(differenceOf(Array(10).fill(99), totals).value!.stands).toBe(true);
		}
	});
});
