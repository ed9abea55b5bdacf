import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as units from '#shared/quantity/units.ts';

describe('conversions', () => {
	it('have their defined values', () => {
		// By definition of the units; the cubic foot from the foot of 0.3048 m.
		expect(units.kelvinOf(25)).toBe(298.15);
		expect(units.barOfMbar(1500)).toBe(1.5);
		expect(units.m3hOfLpm(10)).toBeCloseTo(0.6, 15);
		expect(units.m3OfFt3(1)).toBeCloseTo(0.3048 ** 3, 15);
		expect(units.mjOfKwh(1)).toBe(3.6);
	});

	it('are undone by their partners', () => {
		const pairs = [
			[units.kelvinOf, units.celsiusOf],
			[units.barOfMbar, units.mbarOfBar],
			[units.m3hOfLpm, units.lpmOfM3h],
			[units.mjOfKwh, units.kwhOfMj]
		] as const;
		fc.assert(
			fc.property(fc.double({ min: -1000, max: 1000, noNaN: true }), fc.constantFrom(...pairs), (value, [there, back]) => {
				expect(back(there(value))).toBeCloseTo(value, 9);
			})
		);
	});
});
