import fc from 'fast-check';
import { describe, test } from 'vitest';
import { applyFault } from '#shared/scenario/apply-fault.ts';
import { sampleMachine } from '#shared/callout/sample-machine.ts';
import { stockNamed } from '../../sampled.ts';

/** Each fault's worst answer at the tap grows with its severity. Slack is half the halving-the-step tolerance and what cycling averages to. */
const laws = {
	'combi-plate-primary': [
		{ fault: 'plate-scaled', quantity: 'tapTempC', slack: 0.2 },
		{ fault: 'diverter-passing', quantity: 'tapTempC', slack: 0.2 },
		{ fault: 'gas-pressure-low', quantity: 'heatInputNetKw', slack: 0.1 },
		{ fault: 'gas-cock-part-closed', quantity: 'heatInputNetKw', slack: 0.1 },
		{ fault: 'fan-slow', quantity: 'fanSpeedRpm', slack: 1e-6 },
		{ fault: 'flue-restricted', quantity: 'heatInputNetKw', slack: 0.1 },
		{ fault: 'condensate-blocked', quantity: 'heatInputNetKw', slack: 0.1 },
		{ fault: 'crossed-connection', quantity: 'tapTempC', slack: 0.2 },
		{ fault: 'opened-too-far', quantity: 'tapTempC', slack: 0.2 },
		{ fault: 'main-restricted', quantity: 'tapFlowLpm', slack: 1e-9 },
		{ fault: 'inlet-filter-blocked', quantity: 'tapFlowLpm', slack: 1e-9 },
		{ fault: 'plate-blocked', quantity: 'primaryFlowLpm', slack: 1e-9 },
		{ fault: 'electrode-worn', quantity: 'flameMicroA', slack: 0.01 }
	],
	'combi-tap-coil': [
		{ fault: 'coil-scaled', quantity: 'tapTempC', slack: 0.2 },
		{ fault: 'fins-sooted', quantity: 'efficiencyNetPercent', slack: 0.1 },
		{ fault: 'fins-sooted', quantity: 'venturiMbar', slack: 1e-9 },
		{ fault: 'flue-restricted', quantity: 'venturiMbar', slack: 1e-9 },
		{ fault: 'gas-pressure-low', quantity: 'heatInputNetKw', slack: 0.1 },
		{ fault: 'gas-cock-part-closed', quantity: 'burnerMbar', slack: 0.1 },
		{ fault: 'burner-pressure-set-low', quantity: 'burnerMbar', slack: 0.1 },
		{ fault: 'injectors-blocked', quantity: 'heatInputNetKw', slack: 0.1 },
		{ fault: 'tap-sensor-reads-hot', quantity: 'tapTempC', slack: 0.3 },
		{ fault: 'crossed-connection', quantity: 'tapTempC', slack: 0.2 },
		{ fault: 'opened-too-far', quantity: 'tapTempC', slack: 0.2 },
		{ fault: 'inlet-filter-blocked', quantity: 'tapFlowLpm', slack: 1e-9 },
		{ fault: 'electrode-worn', quantity: 'flameMicroA', slack: 0.01 }
	]
};

describe.each(Object.entries(laws))('%s', (id, ofFamily) => {
	const { pack, run } = stockNamed(id);

	test.each(ofFamily)('more $fault never raises $quantity', ({ fault: named, quantity, slack }) => {
		const fault = pack.faults.find((one) => one.id === named)!;
		const severity = fc.double({ min: 0, max: 1, noNaN: true });
		fc.assert(
			fc.property(fc.nat(5000), severity, severity, (seed, one, other) => {
				const { sound } = sampleMachine(pack, seed, { fault: 'none' });
				const less = run(applyFault(sound, fault, Math.min(one, other)), 'tap')[quantity];
				const more = run(applyFault(sound, fault, Math.max(one, other)), 'tap')[quantity];
				return more <= less + slack;
			}),
			{ numRuns: 60, seed: 20 }
		);
	});
});
