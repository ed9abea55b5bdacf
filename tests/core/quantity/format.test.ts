import { describe, expect, it } from 'vitest';
import { decimalsOf, formatNumber } from '#shared/quantity/format.ts';

describe('numbers as text', () => {
	it('have the asked decimals and no sign before a nought', () => {
		expect(formatNumber(12.5, 2)).toBe('12.50');
		expect(formatNumber(-12.345, 1)).toBe('-12.3');
		expect(formatNumber(-0.04, 1)).toBe('0.0');
		expect(formatNumber(-0, 0)).toBe('0');
		expect(formatNumber(1234567.8, 0)).toBe('1234568');
		expect(formatNumber(Infinity, 1)).toBe('infinite');
		expect(formatNumber(-Infinity, 1)).toBe('-infinite');
	});

	it('are refused when they are none, or the decimals make no sense', () => {
		expect(() => formatNumber(NaN, 1)).toThrow(RangeError);
		expect(() => formatNumber(1, -1)).toThrow(RangeError);
		expect(() => formatNumber(1, 1.5)).toThrow(RangeError);
	});
});

describe('decimals of a resolution', () => {
	it.each([
		[100, 0],
		[5, 0],
		[1, 0],
		[0.5, 1],
		[0.1, 1],
		[0.2, 1],
		[0.25, 2],
		[0.01, 2],
		[0.001, 3],
		[0.00001, 5]
	])('%d has %d', (resolution, decimals) => {
		expect(decimalsOf(resolution)).toBe(decimals);
	});

	it('refuses a resolution that is none', () => {
		for (const bad of [0, -1, NaN, Infinity]) expect(() => decimalsOf(bad)).toThrow(RangeError);
	});
});
