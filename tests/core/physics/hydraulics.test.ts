import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
	flowLpm,
	headBar,
	lossBar,
	openedResistance,
	parallelResistance,
	pumpFlowLpm,
	resistanceOfKv,
	seriesResistance
} from '#shared/physics/hydraulics.ts';

const resistance = fc.double({ min: 1e-6, max: 10, noNaN: true });
const pressure = fc.double({ min: 1e-4, max: 10, noNaN: true });

describe('resistances', () => {
	it('in parallel pass the sum of the flows, in series lose the sum of the pressures', () => {
		fc.assert(
			fc.property(fc.array(resistance, { minLength: 1, maxLength: 5 }), pressure, (branches, bar) => {
				const together = flowLpm(bar, parallelResistance(...branches));
				const apart = branches.reduce((sum, r) => sum + flowLpm(bar, r), 0);
				expect(Math.abs(together / apart - 1)).toBeLessThan(1e-12);
				const flow = flowLpm(bar, seriesResistance(...branches));
				const losses = branches.reduce((sum, r) => sum + lossBar(flow, r), 0);
				expect(Math.abs(losses / bar - 1)).toBeLessThan(1e-12);
			})
		);
	});

	it('heed shut, missing and free branches', () => {
		expect(parallelResistance()).toBe(Infinity);
		expect(parallelResistance(Infinity, Infinity)).toBe(Infinity);
		expect(parallelResistance(0.04, Infinity)).toBeCloseTo(0.04, 15);
		expect(parallelResistance(0.04, 0)).toBe(0);
		expect(seriesResistance()).toBe(0);
		expect(seriesResistance(0.04, Infinity)).toBe(Infinity);
		expect(openedResistance(0.04, 0)).toBe(Infinity);
		expect(openedResistance(0.04, 1)).toBe(0.04);
		expect(openedResistance(0.04, 0.5)).toBe(0.16);
		expect(resistanceOfKv(0)).toBe(Infinity);
	});
});

describe('flow', () => {
	it('is undone by the loss, in either direction', () => {
		fc.assert(
			fc.property(fc.double({ min: -10, max: 10, noNaN: true }), resistance, (bar, r) => {
				expect(lossBar(flowLpm(bar, r), r)).toBeCloseTo(bar, 10);
			})
		);
	});

	it('stops where shut or without pressure', () => {
		expect(flowLpm(3, Infinity)).toBe(0);
		expect(flowLpm(0, 0)).toBe(0);
		expect(flowLpm(1, 0)).toBe(Infinity);
		expect(lossBar(0, Infinity)).toBe(0);
	});
});

describe('pump', () => {
	it('meets its circuit where its head is the loss', () => {
		fc.assert(
			fc.property(pressure, resistance, fc.double({ min: 0.05, max: 1, noNaN: true }), resistance, (p0, a, s, r) => {
				const flow = pumpFlowLpm(p0, a, s, r);
				expect(Math.abs(headBar(p0, a, s, flow) - lossBar(flow, r))).toBeLessThan(1e-9 * p0);
			})
		);
	});

	it('gives less the more it has to push through, and nothing when still or shut', () => {
		fc.assert(
			fc.property(pressure, resistance, resistance, resistance, (p0, a, r, more) => {
				expect(pumpFlowLpm(p0, a, 1, r + more)).toBeLessThan(pumpFlowLpm(p0, a, 1, r));
			})
		);
		expect(pumpFlowLpm(0.6, 1e-4, 0, 1e-3)).toBe(0);
		expect(pumpFlowLpm(0.6, 1e-4, 1, Infinity)).toBe(0);
		expect(headBar(0.6, 1e-4, 1, 0)).toBe(0.6);
	});
});
