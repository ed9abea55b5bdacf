import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { costAfterCheck, entropyBits, expectedRepairCost, repairBook, repairPolicy } from '#shared/diagnosis/expected-cost.ts';

const positive = (most: number) => fc.double({ min: 0.01, max: most, noNaN: true });
const situation = fc.integer({ min: 2, max: 6 }).chain((faults) =>
	fc.record({
		p: fc.array(positive(1), { minLength: faults, maxLength: faults }).map((all) => {
			const sum = all.reduce((a, b) => a + b, 0);
			return all.map((each) => each / sum);
		}),
		costs: fc.array(positive(300), { minLength: faults, maxLength: faults }),
		told: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: faults, maxLength: faults })
	})
);

const bookOf = (costs: readonly number[]) =>
	repairBook(
		costs.length,
		costs.map((cost, fault) => ({ cost, cures: [fault] }))
	);
const joint = (p: readonly number[], told: readonly number[]) => [
	Float64Array.from(p, (each, fault) => each * told[fault]),
	Float64Array.from(p, (each, fault) => each * (1 - told[fault]))
];

describe('expected cost of repair', () => {
	it('scales with all costs', () => {
		fc.assert(
			fc.property(situation, positive(50), ({ p, costs }, factor) => {
				const scaled = expectedRepairCost(bookOf(costs.map((cost) => cost * factor)), p);
				expect(scaled).toBeCloseTo(factor * expectedRepairCost(bookOf(costs), p), 6);
			})
		);
	});

	it('does not change when faults are named otherwise', () => {
		fc.assert(
			fc.property(situation, ({ p, costs }) => {
				const turned = expectedRepairCost(bookOf([...costs].reverse()), [...p].reverse());
				expect(turned).toBeCloseTo(expectedRepairCost(bookOf(costs), p), 6);
			})
		);
	});

	it('is concave in the belief, so a free check never raises it', () => {
		fc.assert(
			fc.property(situation, ({ p, costs, told }) => {
				const book = bookOf(costs);
				expect(costAfterCheck(book, 0, joint(p, told))).toBeLessThanOrEqual(expectedRepairCost(book, p) + 1e-6);
			})
		);
	});

	it('rises by exactly the cost of a check that tells nothing', () => {
		fc.assert(
			fc.property(situation, positive(60), fc.double({ min: 0.05, max: 0.95, noNaN: true }), ({ p, costs }, price, same) => {
				const book = bookOf(costs);
				const after = costAfterCheck(
					book,
					price,
					joint(
						p,
						p.map(() => same)
					)
				);
				expect(after - expectedRepairCost(book, p)).toBeCloseTo(price, 6);
			})
		);
	});

	it('decides on remedies: one that cures two likely faults goes before one that cures a likelier single fault', () => {
		const book = repairBook(3, [
			{ cost: 50, cures: [0] },
			{ cost: 50, cures: [1, 2] }
		]);
		expect(repairPolicy(book, [0.4, 0.3, 0.3]).order).toEqual([1, 0]);
		expect(expectedRepairCost(book, [0.4, 0.3, 0.3])).toBeCloseTo(50 + 0.4 * 50, 9);
	});

	it('charges giving up for a fault that nothing cures, and for one too unlikely to be worth its repair', () => {
		const book = repairBook(
			3,
			[
				{ cost: 10, cures: [0] },
				{ cost: 70, cures: [1] }
			],
			75
		);
		expect(expectedRepairCost(book, [0.5, 0, 0.5])).toBeCloseTo(10 + 0.5 * 75, 9);
		expect(expectedRepairCost(book, [0.5, 0.45, 0.05])).toBeCloseTo(10 + 0.5 * 75, 9);
		expect(expectedRepairCost(book, [0.5, 0.49, 0.01])).toBeCloseTo(10 + 0.5 * 70 + 0.01 * 75, 9);
	});

	it('with giving up is still the cheapest of all orders and places to stop', () => {
		fc.assert(
			fc.property(situation, fc.double({ min: 300, max: 900, noNaN: true }), ({ p, costs }, givingUp) => {
				const byRatio = p.map((_, fault) => fault).sort((a, b) => p[b] / costs[b] - p[a] / costs[a]);
				const stops = Array.from({ length: p.length + 1 }, (_, stop) => {
					let left = 1;
					let cost = 0;
					for (const fault of byRatio.slice(0, stop)) {
						cost += costs[fault] * left;
						left -= p[fault];
					}
					return cost + left * givingUp;
				});
				const book = repairBook(
					p.length,
					costs.map((cost, fault) => ({ cost, cures: [fault] })),
					givingUp
				);
				expect(expectedRepairCost(book, p)).toBeCloseTo(Math.min(...stops), 6);
			})
		);
	});
});

describe('entropy', () => {
	it('is 0 for certainty and log2 of the count for an even belief, whatever the masses sum to', () => {
		expect(entropyBits([0, 1, 0])).toBe(0);
		expect(entropyBits([0.2, 0.2, 0.2, 0.2])).toBeCloseTo(2, 12);
	});
});
