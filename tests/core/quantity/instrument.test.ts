import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { errorSd, observe } from '#shared/quantity/instrument.ts';
import { chance } from '#shared/quantity/random.ts';

const exact = { error: 0, errorShare: 0 };
const rounded = (value: number, resolution: number) => observe(value, { ...exact, resolution }, chance(1));

describe('rounding', () => {
	it('shows the decimals of the resolution, and no binary dust', () => {
		expect(rounded(48.26, 0.1)).toEqual({ value: 48.3, text: '48.3' });
		expect(rounded(0.3, 0.1)).toEqual({ value: 0.3, text: '0.3' });
		expect(rounded(11.2, 0.5)).toEqual({ value: 11, text: '11.0' });
		expect(rounded(3.1, 0.25)).toEqual({ value: 3, text: '3.00' });
		expect(rounded(1234, 5)).toEqual({ value: 1235, text: '1235' });
		expect(rounded(1234, 100)).toEqual({ value: 1200, text: '1200' });
	});

	it('never shows a minus before a nought', () => {
		const read = rounded(-0.04, 0.1);
		expect(read.text).toBe('0.0');
		expect(Object.is(read.value, 0)).toBe(true);
	});

	it('is within half a step, and the text is the value', () => {
		const steps = fc.constantFrom(0.001, 0.01, 0.1, 0.25, 0.5, 1, 5, 10, 100);
		fc.assert(
			fc.property(fc.double({ min: -1e5, max: 1e5, noNaN: true }), steps, (value, resolution) => {
				const read = rounded(value, resolution);
				expect(Math.abs(read.value - value)).toBeLessThanOrEqual(resolution / 2 + 1e-9);
				expect(Number(read.text)).toBe(read.value);
				const step = read.value / resolution;
				expect(Math.abs(step - Math.round(step))).toBeLessThan(1e-6);
			})
		);
	});
});

describe('range', () => {
	const ohmmeter = { error: 0.5, errorShare: 0.01, resolution: 1, over: 2000 };

	it('ends where the display says', () => {
		expect(observe(Infinity, ohmmeter, chance(1))).toEqual({ value: Infinity, text: 'over range' });
		expect(observe(5000, ohmmeter, chance(1))).toEqual({ value: Infinity, text: 'over range' });
		expect(observe(1000, ohmmeter, chance(1)).value).toBeLessThan(2000);
		expect(observe(2000, { ...ohmmeter, ...exact }, chance(1)).text).toBe('2000');
		expect(observe(Infinity, { ...exact, resolution: 1 }, chance(1)).text).toBe('over range');
	});

	it('refuses what is not a number, and a step of nothing', () => {
		expect(() => observe(NaN, ohmmeter, chance(1))).toThrow(RangeError);
		expect(() => observe(1, { ...exact, resolution: 0 }, chance(1))).toThrow(RangeError);
	});
});

describe('error', () => {
	it('spreads as its standard deviation says, rounding included', () => {
		// 40,000 readings: standard error 0.35 % of the deviation; the cut at 3 makes it 1 % less. 3 % is allowed.
		for (const instrument of [
			{ error: 0.4, errorShare: 0, resolution: 0.1 },
			{ error: 0.1, errorShare: 0.02, resolution: 0.5 },
			{ error: 0.02, errorShare: 0, resolution: 0.1 }
		]) {
			const place = chance(2, 'place');
			const noise = chance(2, 'noise');
			let square = 0;
			let sum = 0;
			const count = 40_000;
			for (let i = 0; i < count; i++) {
				const truth = 50 + place.uniform();
				const off = observe(truth, instrument, noise).value - truth;
				sum += off;
				square += off * off;
			}
			const expected = errorSd(50.5, instrument);
			expect(Math.abs(Math.sqrt(square / count) / expected - 1)).toBeLessThan(0.03);
			expect(Math.abs(sum / count)).toBeLessThan(0.025 * expected);
		}
	});

	it('is the resolution alone for a perfect instrument', () => {
		expect(errorSd(20, { ...exact, resolution: 0.1 })).toBeCloseTo(0.028868, 6); // 0.1 / sqrt(12), by arithmetic
		expect(errorSd(Infinity, { ...exact, resolution: 0.1 })).toBe(Infinity);
	});

	it('gives the same reading for the same occasion, and mostly another for another', () => {
		const thermometer = { error: 0.4, errorShare: 0, resolution: 0.1 };
		const read = (occasion: number) => observe(48, thermometer, chance(9, 'tap-temperature', occasion)).text;
		expect(read(1)).toBe(read(1));
		expect(new Set(Array.from({ length: 20 }, (_, occasion) => read(occasion))).size).toBeGreaterThan(5);
	});
});
