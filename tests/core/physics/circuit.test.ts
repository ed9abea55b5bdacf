import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dividerV, heaterOhm, loadA, parallelOhm, seriesOhm } from '#shared/physics/circuit.ts';

const ohm = fc.double({ min: 0.1, max: 1e6, noNaN: true });

describe('resistances', () => {
	it('in parallel are below the least, in series above the greatest', () => {
		fc.assert(
			fc.property(ohm, ohm, ohm, (one, two, three) => {
				expect(parallelOhm(one, two, three)).toBeLessThan(Math.min(one, two, three));
				expect(seriesOhm(one, two, three)).toBeGreaterThan(Math.max(one, two, three));
			})
		);
	});

	it('heed open and short circuits', () => {
		expect(seriesOhm(100, Infinity)).toBe(Infinity);
		expect(parallelOhm(100, Infinity)).toBe(100);
		expect(parallelOhm(100, 0)).toBe(0);
		expect(parallelOhm()).toBe(Infinity);
		expect(seriesOhm()).toBe(0);
	});
});

describe('divider', () => {
	it('shares the supply as the resistances, and the two shares make it whole', () => {
		fc.assert(
			fc.property(fc.double({ min: 1, max: 24, noNaN: true }), ohm, ohm, (supply, upper, lower) => {
				const [one, other] = [dividerV(supply, upper, lower), dividerV(supply, lower, upper)];
				expect(one + other).toBeCloseTo(supply, 10);
				expect(one / lower).toBeCloseTo(supply / seriesOhm(upper, lower), 10);
			})
		);
	});

	it('reads the whole supply across an open sensor and nothing across a short', () => {
		expect(dividerV(5, 4700, Infinity)).toBe(5);
		expect(dividerV(5, 4700, 0)).toBe(0);
		expect(dividerV(5, Infinity, 4700)).toBe(0);
	});
});

describe('loads', () => {
	it("obey Ohm's law", () => {
		fc.assert(
			fc.property(fc.double({ min: 1, max: 10000, noNaN: true }), fc.double({ min: 12, max: 253, noNaN: true }), (watt, volt) => {
				expect(Math.abs((heaterOhm(watt, volt) * loadA(watt, volt)) / volt - 1)).toBeLessThan(1e-12);
			})
		);
	});
});
