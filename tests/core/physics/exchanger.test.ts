import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
	counterflowEffectiveness,
	counterflowHeatKw,
	logMeanDifferenceK,
	plateConductance,
	type Plate
} from '#shared/physics/exchanger.ts';

const ratio = fc.double({ min: 0, max: 1, noNaN: true });
const ntu = fc.double({ min: 0, max: 50, noNaN: true });
const capacity = fc.double({ min: 0.05, max: 5, noNaN: true });
const temp = fc.double({ min: 5, max: 95, noNaN: true });

describe('counterflow effectiveness', () => {
	it('lies between none and all, rises with size and falls with the ratio of capacities', () => {
		fc.assert(
			fc.property(ntu, fc.double({ min: 0.001, max: 5, noNaN: true }), ratio, ratio, (n, more, c1, c2) => {
				const e = counterflowEffectiveness(n, c1);
				expect(e).toBeGreaterThanOrEqual(0);
				expect(e).toBeLessThanOrEqual(1);
				expect(counterflowEffectiveness(n + more, c1)).toBeGreaterThanOrEqual(e - 1e-12);
				const [low, high] = c1 < c2 ? [c1, c2] : [c2, c1];
				expect(counterflowEffectiveness(n, high)).toBeLessThanOrEqual(counterflowEffectiveness(n, low) + 1e-12);
			})
		);
	});

	it('passes smoothly to its limits', () => {
		fc.assert(
			fc.property(ntu, fc.double({ min: 1e-15, max: 1e-6, noNaN: true }), (n, gap) => {
				expect(Math.abs(counterflowEffectiveness(n, 1 - gap) - n / (1 + n))).toBeLessThan(1e-6);
				expect(counterflowEffectiveness(n, 0)).toBeCloseTo(1 - Math.exp(-n), 12);
			})
		);
		expect(counterflowEffectiveness(Infinity, 1)).toBe(1);
		expect(counterflowEffectiveness(Infinity, 0.4)).toBe(1);
		expect(counterflowEffectiveness(0, 1)).toBe(0);
	});

	it('refuses what is out of range', () => {
		expect(() => counterflowEffectiveness(-0.1, 0.5)).toThrow(RangeError);
		expect(() => counterflowEffectiveness(1, 1.1)).toThrow(RangeError);
		expect(() => counterflowEffectiveness(NaN, 0.5)).toThrow(RangeError);
	});
});

describe('counterflow heat', () => {
	it('is conductance times log-mean difference: the other method agrees', () => {
		fc.assert(
			fc.property(capacity, capacity, fc.double({ min: 0.05, max: 3, noNaN: true }), (hot, cold, ua) => {
				const heat = counterflowHeatKw(hot, 80, cold, 10, ua);
				const ends = [80 - (10 + heat / cold), 80 - heat / hot - 10] as const;
				fc.pre(Math.min(...ends) > 1e-3);
				expect(Math.abs((ua * logMeanDifferenceK(...ends)) / heat - 1)).toBeLessThan(1e-7);
			})
		);
	});

	it('never brings a stream past where the other enters', () => {
		fc.assert(
			fc.property(capacity, temp, capacity, temp, fc.double({ min: 0, max: 100, noNaN: true }), (hot, hotIn, cold, coldIn, ua) => {
				const heat = counterflowHeatKw(hot, hotIn, cold, coldIn, ua);
				const [low, high] = [Math.min(hotIn, coldIn) - 1e-9, Math.max(hotIn, coldIn) + 1e-9];
				for (const out of [hotIn - heat / hot, coldIn + heat / cold]) {
					expect(out).toBeGreaterThanOrEqual(low);
					expect(out).toBeLessThanOrEqual(high);
				}
			})
		);
	});

	it('changes sign and nothing else when the streams are named the other way about', () => {
		fc.assert(
			fc.property(capacity, temp, capacity, temp, ntu, (hot, hotIn, cold, coldIn, ua) => {
				expect(counterflowHeatKw(hot, hotIn, cold, coldIn, ua)).toBeCloseTo(-counterflowHeatKw(cold, coldIn, hot, hotIn, ua), 10);
			})
		);
	});

	it('is nothing when a stream stands still', () => {
		expect(counterflowHeatKw(0, 80, 1, 10, 2)).toBe(0);
		expect(counterflowHeatKw(1, 80, 0, 10, 2)).toBe(0);
		expect(counterflowHeatKw(0, 80, 0, 10, 2)).toBe(0);
		expect(() => counterflowHeatKw(1, 80, 1, 10, -1)).toThrow(RangeError);
	});
});

describe('plate conductance', () => {
	const plate: Plate = {
		cleanKwPerK: 2.4,
		hotShare: 0.45,
		coldShare: 0.45,
		hotFlowRatio: 1,
		coldFlowRatio: 1,
		foulingM2KPerW: 0,
		areaM2: 0.6,
		openShare: 1
	};

	it('is the clean one when nothing is amiss', () => {
		expect(plateConductance(plate)).toBeCloseTo(2.4, 12);
	});

	it('falls with deposit, with blockage and with less flow on either side', () => {
		const share = fc.double({ min: 0.05, max: 0.99, noNaN: true });
		fc.assert(
			fc.property(share, fc.double({ min: 1e-6, max: 1e-3, noNaN: true }), (less, foulingM2KPerW) => {
				const clean = plateConductance(plate);
				expect(plateConductance({ ...plate, foulingM2KPerW })).toBeLessThan(clean);
				expect(plateConductance({ ...plate, openShare: less })).toBeCloseTo(clean * less, 12);
				expect(plateConductance({ ...plate, hotFlowRatio: less })).toBeLessThan(clean);
				expect(plateConductance({ ...plate, coldFlowRatio: less })).toBeLessThan(clean);
			})
		);
	});

	it('gains the resistance of the deposit spread over its area', () => {
		// 1000 x 3e-4 / 0.6 = 0.5 K/kW, by hand.
		expect(1 / plateConductance({ ...plate, foulingM2KPerW: 3e-4 }) - 1 / plateConductance(plate)).toBeCloseTo(0.5, 12);
	});

	it('cannot pass more than its wall does, however fast the flow', () => {
		expect(plateConductance({ ...plate, hotFlowRatio: 1e9, coldFlowRatio: 1e9 })).toBeCloseTo(2.4 / 0.1, 3);
	});

	it('is nothing when still or shut', () => {
		expect(plateConductance({ ...plate, hotFlowRatio: 0 })).toBe(0);
		expect(plateConductance({ ...plate, coldFlowRatio: 0 })).toBe(0);
		expect(plateConductance({ ...plate, openShare: 0 })).toBe(0);
	});
});

describe('log-mean difference', () => {
	it('lies between the geometric and the arithmetic mean, and is alike from either end', () => {
		const difference = fc.double({ min: 0.01, max: 100, noNaN: true });
		fc.assert(
			fc.property(difference, difference, (one, other) => {
				const mean = logMeanDifferenceK(one, other);
				expect(mean).toBeGreaterThanOrEqual(Math.sqrt(one * other) * (1 - 1e-9));
				expect(mean).toBeLessThanOrEqual(((one + other) / 2) * (1 + 1e-9));
				expect(Math.abs(mean / logMeanDifferenceK(other, one) - 1)).toBeLessThan(1e-9);
			})
		);
		expect(logMeanDifferenceK(20, 20)).toBe(20);
		expect(() => logMeanDifferenceK(0, 10)).toThrow(RangeError);
	});
});
