/** Decision-theoretic troubleshooting against every order by brute force, and against worked examples with known answers. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { costAfterCheck, entropyBits, expectedRepairCost, repairBook, repairPolicy } from '#shared/diagnosis/expected-cost.ts';
import { lookAhead } from '#shared/diagnosis/look-ahead.ts';
import type { Option } from '#shared/diagnosis/look-ahead.ts';

/** Each repair cures its own fault. */
const ownRepairs = (costs: readonly number[]) =>
	repairBook(
		costs.length,
		costs.map((cost, fault) => ({ cost, cures: [fault] }))
	);

function orders(count: number): number[][] {
	if (count === 0) return [[]];
	return orders(count - 1).flatMap((order) =>
		Array.from({ length: count }, (_, at) => [...order.slice(0, at), count - 1, ...order.slice(at)])
	);
}

/** ECR = sum_i C_i (1 - sum_{j<i} p_j), by its definition and nothing else. */
function costOfOrder(p: readonly number[], cost: readonly number[], order: readonly number[]): number {
	let left = p.reduce((sum, each) => sum + each, 0);
	return order.reduce((sum, fault) => {
		const here = sum + cost[fault] * left;
		left -= p[fault];
		return here;
	}, 0);
}

/** Joint masses of a two-way check: P(positive | fault) for each fault. */
const joint = (p: readonly number[], positive: readonly number[]) => [
	Float64Array.from(p, (each, fault) => each * positive[fault]),
	Float64Array.from(p, (each, fault) => each * (1 - positive[fault]))
];

// Falling probability over cost is the cheapest order: Kadane & Simon 1977; Heckerman, Breese & Rommelse 1995, Communications of the ACM
// 38(3) (from memory). The comparison with all orders is computed.
describe('the order of probability over cost', () => {
	it('costs least of all orders, whatever the chances and costs', () => {
		const fault = fc.record({ p: fc.double({ min: 0.001, max: 1, noNaN: true }), cost: fc.double({ min: 0.1, max: 500, noNaN: true }) });
		fc.assert(
			fc.property(fc.array(fault, { minLength: 1, maxLength: 6 }), (faults) => {
				const total = faults.reduce((sum, { p }) => sum + p, 0);
				const p = faults.map((each) => each.p / total);
				const cost = faults.map((each) => each.cost);
				const least = Math.min(...orders(p.length).map((order) => costOfOrder(p, cost, order)));
				expect(expectedRepairCost(ownRepairs(cost), p)).toBeCloseTo(least, 6);
			})
		);
	});

	it('gives the published small example by arithmetic (computed): order 2, 3, 1 costs 9.8, order 1, 2, 3 costs 11.8', () => {
		const { cost, order } = repairPolicy(ownRepairs([10, 2, 4]), [0.5, 0.3, 0.2]);
		// The first and the third are equal in probability over cost, so either may come second.
		expect(order[0]).toBe(1);
		expect(cost).toBeCloseTo(9.8, 9);
		expect(costOfOrder([0.5, 0.3, 0.2], [10, 2, 4], [0, 1, 2])).toBeCloseTo(11.8, 9);
	});
});

// Our own worked example; its figures were computed by brute force and dynamic programming apart from this code.
describe('worked example A: four faults, two checks (computed)', () => {
	const p = [0.2, 0.25, 0.4, 0.15];
	const cost = [10, 5, 40, 20];
	const book = ownRepairs(cost);
	const t1 = [0.95, 0.1, 0.1, 0.95];
	const t2 = [0, 0, 1, 0];

	it('costs 37.50 without checks, in the order b a c d', () => {
		expect(repairPolicy(book, p)).toEqual({ cost: expect.closeTo(37.5, 9), order: [1, 0, 2, 3] });
		const named: [number[], number][] = [
			[[0, 1, 2, 3], 39],
			[[1, 0, 3, 2], 39.5],
			[[2, 1, 0, 3], 49.5],
			[[2, 0, 1, 3], 51],
			[[3, 2, 0, 1], 59.75]
		];
		for (const [order, expected] of named) expect(costOfOrder(p, cost, order)).toBeCloseTo(expected, 9);
	});

	it('costs 22.25 when a free check tells everything', () => {
		const told = p.map((each, fault) => Float64Array.from(p, (_, other) => (other === fault ? each : 0)));
		expect(costAfterCheck(book, 0, told)).toBeCloseTo(22.25, 9);
	});

	it('costs 32.4875 with the first check and 33.50 with the second, which brings more bits', () => {
		expect(costAfterCheck(book, 4, joint(p, t1))).toBeCloseTo(32.4875, 6);
		expect(costAfterCheck(book, 8, joint(p, t2))).toBeCloseTo(33.5, 6);
		expect(entropyBits(p)).toBeCloseTo(1.903702, 6);
		const gained = (positive: number[]) =>
			joint(p, positive).reduce((left, mass) => left - mass.reduce((a, b) => a + b, 0) * entropyBits(mass), entropyBits(p));
		expect(gained(t1)).toBeCloseTo(0.564383, 6);
		expect(gained(t2)).toBeCloseTo(0.970951, 6);
	});

	it('finds the full optimum of 32.40 one check deeper, and what each first action loses against it', () => {
		interface Named extends Option<null> {
			readonly name: string;
		}
		const check = (name: string, price: number, positive: number[]): Named => ({
			name,
			cost: price,
			joint: joint(p, positive),
			after: null,
			again: () => price
		});
		const repair = (name: string, fault: number): Named => ({
			name,
			cost: cost[fault],
			joint: [Float64Array.from(p, (each, other) => (other === fault ? 0 : each))],
			after: null
		});
		const options = [check('T1', 4, t1), check('T2', 8, t2), ...['a', 'b', 'c', 'd'].map(repair)];
		const depth = { checks: 2, remedies: 4, also: () => false };
		const looked = lookAhead<null, Named>(book, Float64Array.from(p), options, depth);
		const least = Math.min(...looked.map((one) => one.expected));
		expect(least).toBeCloseTo(32.4, 6);
		const lost = Object.fromEntries(looked.map(({ option, expected }) => [option.name, expected - least]));
		expect(lost.b).toBeCloseTo(0, 6);
		expect(lost.T1).toBeCloseTo(0.0875, 6);
		expect(lost.T2).toBeCloseTo(1.1, 6);
		// What follows a poor repair is looked at one check deep only, so it may seem dearer than the optimum by up to a check and a repair.
		for (const [name, exact] of [
			['a', 3.9],
			['d', 13.05],
			['c', 17.1]
		] as const) {
			expect(lost[name]).toBeGreaterThan(exact - 1e-6);
			expect(lost[name]).toBeLessThan(exact + 1);
		}
	});
});

// Used-car problem of Pearl 1988, inputs as set in the open AIMA exercises, 16.22 (source); answers computed.
describe('worked example C: a check that informs and is worth nothing', () => {
	it('has value 0 before its cost of 50, though it brings 0.134383 bits', () => {
		const p = [0.7, 0.3];
		const pass = [0.8, 0.35];
		// Buying is the only deal, as one "repair" whose cost is the loss: 1500 - 2000, and 700 more where the car is bad.
		const gain = (mass: ArrayLike<number>) => Math.max(0, 500 * mass[0] - 200 * mass[1]);
		const outcomes = joint(p, pass);
		const [good, bad] = outcomes.map((mass) => gain(mass) / (mass[0] + mass[1]));
		expect(gain(p)).toBeCloseTo(290, 6);
		expect(good).toBeCloseTo(389.473684, 6);
		expect(bad).toBeCloseTo(92.537313, 6);
		expect(outcomes.reduce((sum, mass) => sum + gain(mass), 0) - gain(p)).toBeCloseTo(0, 9);
		const bits = outcomes.reduce((left, mass) => left - (mass[0] + mass[1]) * entropyBits(mass), entropyBits(p));
		expect(bits).toBeCloseTo(0.134383, 6);
	});

	it('is not worth its cost to us either: two faults that one remedy cures need no telling apart', () => {
		const book = repairBook(2, [{ cost: 100, cures: [0, 1] }]);
		const p = [0.7, 0.3];
		expect(costAfterCheck(book, 50, joint(p, [0.8, 0.35])) - expectedRepairCost(book, p)).toBeCloseTo(50, 9);
	});
});
