import fc from 'fast-check';
import { expect, test } from 'vitest';
import { sensing } from '#shared/appliance/components/pipe-sensor.ts';
import { ntc10k, ntcOhm, ntcTempC } from '#shared/physics/thermistor.ts';

test('the sensing curve is that of the thermistor, to 0.02 K', () => {
	fc.assert(
		fc.property(fc.double({ min: 0.25, max: 5, noNaN: true }), fc.double({ min: 0, max: 120, noNaN: true }), (factor, tempC) => {
			const exact = ntcTempC(factor * ntcOhm(tempC, ntc10k), ntc10k);
			expect(Math.abs(sensing(factor)(tempC) - exact)).toBeLessThan(0.02);
		}),
		{ numRuns: 400, seed: 31 }
	);
});

test('a sound sensor senses what is there', () => {
	expect(sensing(1)(61.7)).toBe(61.7);
});
