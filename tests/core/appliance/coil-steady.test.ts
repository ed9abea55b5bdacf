import { expect, test } from 'vitest';
import { counterflowHeatKw, plateConductance } from '#shared/physics/exchanger.ts';
import { heatPerLitreK } from '#shared/physics/water.ts';
import { stockNamed } from '../../sampled.ts';

const { pack, machinesWith, run } = stockNamed('combi-tap-coil');

/** Water that stands round the coil at one temperature: a stream of no end of heat capacity [kW/K]. */
const STANDING_KW_PER_K = 1e9;

/** A run that has steadied must satisfy the steady equation of the coil, solved apart from the run. */
test.each(['none', 'coil-scaled', 'modulator-open', 'injectors-blocked', 'tap-dial-low'])(
	'the end of a run with %s is a steady state',
	(fault) => {
		let steady = 0;
		for (const { faulty: p } of machinesWith(fault, 24)) {
			const q = run(p, 'tap');
			if (q.burnerStarts !== 1 || Math.abs(q.storedKw) > 0.05) continue;
			steady += 1;
			const conductance = plateConductance({
				cleanKwPerK: p['coil.cleanKwPerK'],
				hotShare: 0,
				coldShare: p['coil.filmShare'],
				hotFlowRatio: 1,
				coldFlowRatio: q.applianceFlowLpm / p['coil.tapNominalLpm'],
				foulingM2KPerW: p['coil.foulingM2KPerW'],
				areaM2: p['coil.areaM2'],
				openShare: 1
			});
			const cold = (heatPerLitreK(q.mainTempC) * q.applianceFlowLpm) / 60;
			const passed = counterflowHeatKw(STANDING_KW_PER_K, q.primaryFlowTempC, cold, q.mainTempC, conductance);
			// The run may still be creeping by up to 0.05 kW of some 8 to 25.
			expect(Math.abs(q.tapHeatKw / passed - 1)).toBeLessThan(0.007);
		}
		expect(steady).toBeGreaterThan(5);
	}
);

test('no run of any machine takes the main exchanger to boiling, and none goes on firing above its thermostat', () => {
	for (const fault of pack.faults) {
		for (const { faulty } of machinesWith(fault.id, 4)) {
			for (const demand of ['none', 'tap', 'heating'] as const) {
				const { signals } = pack.model.trace(faulty, demand, 300);
				signals.primaryFlowTempC.forEach((tempC, i) => {
					// 115 degC: below saturation at 1 bar gauge, about 120 degC (IAPWS-IF97, from memory).
					expect(tempC, fault.id).toBeLessThan(115);
					if (tempC > faulty['limit.opensC'] + 3) expect(signals.burnerOn[i], fault.id).toBe(0);
				});
			}
		}
	}
});

test('the gas shuts within the safety time where no flame is proved, and three tries lock out', () => {
	for (const { faulty } of machinesWith('gas-valve-shut', 8)) {
		const { signals } = pack.model.trace(faulty, 'tap', 120);
		let open = 0;
		let longest = 0;
		for (const on of signals.gasValveOn) {
			open = on ? open + 0.5 : 0;
			longest = Math.max(longest, open);
		}
		expect(longest).toBeLessThanOrEqual(8);
		expect(run(faulty, 'tap').sparks).toBe(3);
	}
});
