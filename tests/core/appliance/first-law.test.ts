import { expect, test } from 'vitest';
import type { Demand } from '#shared/appliance/model.ts';
import { combi, machinesWith, run } from '../../sampled.ts';

const faults = ['none', ...combi.faults.map((fault) => fault.id)];

/** Heat in, less heat to tap, circuit, room and store, as a share of what went in (or of 1 kW where little or nothing burns). */
function leftOver(fault: string, demand: Demand, count: number): number {
	const shares = machinesWith(fault, count).map(({ faulty }) => {
		const q = run(faulty, demand);
		const heatIn = (q.heatInputNetKw * q.efficiencyNetPercent) / 100;
		return Math.abs(heatIn - q.tapHeatKw - q.circuitHeatKw - q.lossKw - q.storedKw) / Math.max(1, heatIn);
	});
	return Math.max(...shares);
}

test.each(faults)('heat in is heat out, on sampled machines with %s', (fault) => {
	for (const demand of ['tap', 'part-tap', 'heating', 'both'] as const) {
		expect(leftOver(fault, demand, 25), demand).toBeLessThan(0.01);
	}
});

test('heat at the tap is flow times rise', () => {
	for (const { faulty } of machinesWith('crossed-connection', 50)) {
		const q = run(faulty, 'tap');
		// 4.19 kJ/(l K) at the main's temperature; the heat capacity of water differs by less than 0.5 % from 5 to 20 degC.
		expect((q.tapFlowLpm / 60) * 4.19 * q.tapRiseK).toBeCloseTo(q.tapHeatKw, 0);
	}
});

test('a healthy appliance gives about what its plate says', () => {
	for (const { faulty } of machinesWith('none', 100)) {
		const q = run(faulty, 'tap');
		expect(q.efficiencyNetPercent).toBeGreaterThan(95);
		expect(q.efficiencyNetPercent).toBeLessThan(110);
		if (q.fanPercent > 99) expect(q.tapHeatKw).toBeGreaterThan(22);
	}
});
