import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dividerV, parallelOhm } from '#shared/physics/circuit.ts';

const ohm = fc.double({ min: 0.1, max: 1e6, noNaN: true });

describe('resistances in parallel', () => {
	it('are below the least', () => {
		fc.assert(
			fc.property(ohm, ohm, ohm, (one, two, three) => {
				expect(parallelOhm(one, two, three)).toBeLessThan(Math.min(one, two, three));
			})
		);
	});

	it('heed open and short circuits', () => {
		expect(parallelOhm(100, Infinity)).toBe(100);
		expect(parallelOhm(100, 0)).toBe(0);
		expect(parallelOhm()).toBe(Infinity);
	});
});

describe('divider', () => {
	it('shares the supply as the resistances, and the two shares make it whole', () => {
		fc.assert(
			fc.property(fc.double({ min: 1, max: 24, noNaN: true }), ohm, ohm, (supply, upper, lower) => {
				const [one, other] = [dividerV(supply, upper, lower), dividerV(supply, lower, upper)];
				expect(one + other).toBeCloseTo(supply, 10);
				expect(one / other).toBeCloseTo(lower / upper, 6);
			})
		);
	});

	it('reads the whole supply across an open branch and nothing across a short', () => {
		expect(dividerV(5, 4700, Infinity)).toBe(5);
		expect(dividerV(5, 4700, 0)).toBe(0);
		expect(dividerV(5, Infinity, 4700)).toBe(0);
	});
});
