import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { densityKgPerM3, heatPerLitreK, saturationKpa, saturationTempC, streamKwPerK } from '#shared/physics/water.ts';

const temp = fc.double({ min: 0, max: 100, noNaN: true });
const pair = fc.tuple(temp, temp).filter(([one, other]) => Math.abs(one - other) > 0.01);

describe('liquid water', () => {
	it('past 5 degC, swells as it warms', () => {
		fc.assert(
			fc.property(pair, ([one, other]) => {
				const [cold, hot] = [Math.min(one, other), Math.max(one, other)];
				if (cold > 5) expect(densityKgPerM3(hot)).toBeLessThan(densityKgPerM3(cold));
			})
		);
	});

	it('is densest between 3 and 5 degC', () => {
		let densest = 0;
		for (let tenths = 0; tenths <= 100; tenths++) if (densityKgPerM3(tenths / 10) > densityKgPerM3(densest)) densest = tenths / 10;
		expect(densest).toBeGreaterThan(2.5);
		expect(densest).toBeLessThan(5);
	});

	it('carries heat in proportion to its flow', () => {
		fc.assert(
			fc.property(fc.double({ min: 0, max: 40, noNaN: true }), temp, (lpm, tempC) => {
				expect(streamKwPerK(lpm, tempC) * 60).toBeCloseTo(lpm * heatPerLitreK(tempC), 10);
			})
		);
		expect(streamKwPerK(0, 20)).toBe(0);
	});
});

describe('saturation', () => {
	it('is inverted exactly', () => {
		fc.assert(
			fc.property(temp, (tempC) => {
				expect(saturationTempC(saturationKpa(tempC))).toBeCloseTo(tempC, 8);
			})
		);
	});
});
