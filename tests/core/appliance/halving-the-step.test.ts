import { expect, test } from 'vitest';
import { combi, machinesWith } from '../../sampled.ts';

const faults = ['none', ...combi.faults.map((fault) => fault.id)];
const temperatures = [
	'tapTempC',
	'primaryFlowTempC',
	'primaryReturnTempC',
	'heatingPipeTempC',
	'radiatorTempC',
	'sensedFlowC',
	'sensedReturnC'
];
const flows = ['tapFlowLpm', 'primaryFlowLpm'];
const powers = ['heatInputNetKw', 'tapHeatKw', 'circuitHeatKw'];

/** Nothing that is read may hang on how finely time is cut: 0.2 K, 0.1 l/min, 1 % of power (of the full 24 kW). */
test.each(faults)('halving the step moves no settled reading of %s', (fault) => {
	for (const { faulty } of machinesWith(fault, 6)) {
		for (const demand of ['tap', 'part-tap', 'heating', 'both'] as const) {
			const coarse = combi.model.settle(faulty, demand, 0.5);
			const fine = combi.model.settle(faulty, demand, 0.25);
			for (const key of temperatures) expect(Math.abs(coarse[key] - fine[key]), `${demand} ${key}`).toBeLessThan(0.2);
			for (const key of flows) expect(Math.abs(coarse[key] - fine[key]), `${demand} ${key}`).toBeLessThan(0.1);
			for (const key of powers) expect(Math.abs(coarse[key] - fine[key]), `${demand} ${key}`).toBeLessThan(0.24);
			expect(fine.lockout, demand).toBe(coarse.lockout);
		}
	}
});
