import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { betaOhm, ntc10k, ntcCurveThrough, ntcOhm, ntcTempC, platinumOhm, type NtcPoint } from '#shared/physics/thermistor.ts';

const temp = fc.double({ min: -40, max: 150, noNaN: true });

describe('falling sensor', () => {
	it('gives back the temperature to the last digits, and falls as it warms', () => {
		fc.assert(
			fc.property(temp, fc.double({ min: 0.01, max: 20, noNaN: true }), (tempC, riseK) => {
				expect(ntcTempC(ntcOhm(tempC, ntc10k), ntc10k)).toBeCloseTo(tempC, 8);
				expect(ntcOhm(tempC + riseK, ntc10k)).toBeLessThan(ntcOhm(tempC, ntc10k));
				expect(betaOhm(tempC + riseK, 10000, 3977)).toBeLessThan(betaOhm(tempC, 10000, 3977));
			})
		);
	});

	it('is its named resistance at 25 degC', () => {
		// 0.03 %: the seven figures of the coefficient a against 1/298.15.
		expect(Math.abs(ntcOhm(25, ntc10k) / 10000 - 1)).toBeLessThan(3e-4);
		expect(betaOhm(25, 12000, 3750)).toBe(12000);
	});

	it('reads hot without end when shorted, and absolute cold when open', () => {
		expect(ntcTempC(0, ntc10k)).toBe(Infinity);
		expect(ntcTempC(Infinity, ntc10k)).toBe(-273.15);
	});

	it('is recovered from three points of a beta curve: c and d come to nothing', () => {
		const points = [0, 50, 90].map((tempC) => ({ tempC, ohm: betaOhm(tempC, 10000, 3435) }));
		const curve = ntcCurveThrough(10000, points as [NtcPoint, NtcPoint, NtcPoint]);
		expect(1 / curve.b).toBeCloseTo(3435, 4);
		expect(Math.abs(curve.c)).toBeLessThan(1e-12);
		expect(Math.abs(curve.d)).toBeLessThan(1e-12);
	});

	it('passes exactly through the three points that it is fitted to', () => {
		const points: [NtcPoint, NtcPoint, NtcPoint] = [
			{ tempC: 0, ohm: 32600 },
			{ tempC: 50, ohm: 3590 },
			{ tempC: 85, ohm: 1080 }
		];
		const curve = ntcCurveThrough(10000, points);
		for (const { tempC, ohm } of points) expect(ntcOhm(tempC, curve)).toBeCloseTo(ohm, 6);
	});

	it('is not fitted through points that coincide', () => {
		const point = { tempC: 50, ohm: 4000 };
		expect(() => ntcCurveThrough(10000, [point, point, { tempC: 80, ohm: 1500 }])).toThrow(RangeError);
		expect(() => ntcCurveThrough(10000, [point, { tempC: 25, ohm: 10000 }, { tempC: 80, ohm: 1500 }])).toThrow(RangeError);
	});
});

describe('platinum sensor', () => {
	it('rises with temperature and in proportion to its resistance at 0 degC', () => {
		fc.assert(
			fc.property(fc.double({ min: 0, max: 300, noNaN: true }), fc.double({ min: 0.1, max: 50, noNaN: true }), (tempC, riseK) => {
				expect(platinumOhm(tempC + riseK, 1000)).toBeGreaterThan(platinumOhm(tempC, 1000));
				expect(platinumOhm(tempC, 1000)).toBeCloseTo(10 * platinumOhm(tempC, 100), 9);
			})
		);
	});
});
