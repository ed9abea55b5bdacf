import { describe, expect, test } from 'vitest';
import { stock } from '../../sampled.ts';

/** What a sound appliance of the family keeps of its net heat [%] and gives the tap at full rate [kW]: of the order of its kind. */
const plates: Readonly<Record<string, { efficiency: readonly [number, number]; fullBy: string; full: number; leastKw: number }>> = {
	'combi-plate-primary': { efficiency: [95, 110], fullBy: 'fanPercent', full: 99, leastKw: 22 },
	'combi-tap-coil': { efficiency: [87, 95], fullBy: 'burnerFullPercent', full: 97, leastKw: 21.5 }
};

describe.each(stock)('$id', ({ id, pack, faults, machinesWith, run }) => {
	const demands = pack.family.demands.map((demand) => demand.id).filter((demand) => demand !== 'none');

	test.each(faults)('heat in is heat out, on sampled machines with %s', (fault) => {
		for (const { faulty } of machinesWith(fault, 12)) {
			for (const demand of demands) {
				const q = run(faulty, demand);
				const heatIn = (q.heatInputNetKw * q.efficiencyNetPercent) / 100;
				const leftOver = Math.abs(heatIn - q.tapHeatKw - q.circuitHeatKw - q.lossKw - q.storedKw);
				// As a share of what went in, or of 1 kW where little or nothing burns.
				expect(leftOver / Math.max(1, heatIn), demand).toBeLessThan(0.01);
			}
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
		const { efficiency, fullBy, full, leastKw } = plates[id];
		let atFull = 0;
		for (const { faulty } of machinesWith('none', 100)) {
			const q = run(faulty, 'tap');
			expect(q.efficiencyNetPercent).toBeGreaterThan(efficiency[0]);
			expect(q.efficiencyNetPercent).toBeLessThan(efficiency[1]);
			if (q[fullBy] <= full) continue;
			atFull += 1;
			expect(q.tapHeatKw).toBeGreaterThan(leastKw);
		}
		expect(atFull).toBeGreaterThan(20);
	});
});
