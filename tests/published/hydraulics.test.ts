import { describe, expect, it } from 'vitest';
import { flowLpm, headBar, lossBar, pumpFlowLpm, resistanceOfKv } from '#shared/physics/hydraulics.ts';
import { m3hOfLpm } from '#shared/quantity/units.ts';
import { withinShare } from './within.ts';

describe('flow coefficient, EN 1267 and IEC 60534-1 (definition from memory)', () => {
	it('is the flow at 1 bar', () => {
		withinShare(m3hOfLpm(flowLpm(1, resistanceOfKv(2.5))), 2.5, 1e-9, 'm3/h at 1 bar');
	});

	it('gives the examples', () => {
		// Computed, Q = Kv sqrt(p): Kv 1.6 at 0.1 bar is 8.43 l/min, Kv 1 at 0.04 bar is 0.200 m3/h. 0.1 %: their last figures.
		withinShare(flowLpm(0.1, resistanceOfKv(1.6)), 8.43, 0.001, 'l/min');
		withinShare(m3hOfLpm(flowLpm(0.04, resistanceOfKv(1))), 0.2, 0.001, 'm3/h');
	});
});

describe('square law of a fixed resistance (from memory, any text)', () => {
	it('takes four times the pressure for twice the flow', () => {
		withinShare(flowLpm(4, 0.03) / flowLpm(1, 0.03), 2, 1e-12, 'flow');
		withinShare(lossBar(12, 0.002) / lossBar(6, 0.002), 4, 1e-12, 'loss');
	});

	it('has the ratios worked out for gas at 17, 18 and 25 mbar against 20', () => {
		// Computed, sqrt(p / 20): 0.922, 0.949, 1.118; 0.1 %: their last figures.
		withinShare(flowLpm(17, 1) / flowLpm(20, 1), 0.922, 0.001, '17');
		withinShare(flowLpm(18, 1) / flowLpm(20, 1), 0.949, 0.001, '18');
		withinShare(flowLpm(25, 1) / flowLpm(20, 1), 1.118, 0.001, '25');
	});
});

describe('affinity laws (from memory, any pump text)', () => {
	const [shutoffBar, curveR, systemR] = [0.6, 2e-4, 9e-4];

	it('halves the flow, quarters the head and takes an eighth of the power at half speed', () => {
		const full = pumpFlowLpm(shutoffBar, curveR, 1, systemR);
		const half = pumpFlowLpm(shutoffBar, curveR, 0.5, systemR);
		const fullHead = headBar(shutoffBar, curveR, 1, full);
		const halfHead = headBar(shutoffBar, curveR, 0.5, half);
		withinShare(half / full, 1 / 2, 1e-6, 'flow');
		withinShare(halfHead / fullHead, 1 / 4, 1e-6, 'head');
		withinShare((half * halfHead) / (full * fullHead), 1 / 8, 1e-6, 'power');
	});

	it('meets the curve of the circuit', () => {
		const flow = pumpFlowLpm(shutoffBar, curveR, 0.8, systemR);
		withinShare(headBar(shutoffBar, curveR, 0.8, flow), lossBar(flow, systemR), 1e-12, 'head at the meeting point');
		expect(flow).toBeGreaterThan(0);
	});
});
