import fc from 'fast-check';
import { expect, test } from 'vitest';
import { applyFault } from '#shared/scenario/apply-fault.ts';
import { sampleMachine } from '#shared/callout/sample-machine.ts';
import { combi, run } from '../../sampled.ts';

/** Each fault's worst answer at the tap grows with its severity. Slack is half the halving-the-step tolerance and what cycling averages to. */
const laws = [
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
];

test.each(laws)('more $fault never raises $quantity', ({ fault: id, quantity, slack }) => {
	const fault = combi.faults.find((one) => one.id === id)!;
	const severity = fc.double({ min: 0, max: 1, noNaN: true });
	fc.assert(
		fc.property(fc.nat(5000), severity, severity, (seed, one, other) => {
			const { sound } = sampleMachine(combi, seed, { fault: 'none' });
			const less = run(applyFault(sound, fault, Math.min(one, other)), 'tap')[quantity];
			const more = run(applyFault(sound, fault, Math.max(one, other)), 'tap')[quantity];
			return more <= less + slack;
		}),
		{ numRuns: 60, seed: 20 }
	);
});

test('the same machine gives the same bits', () => {
	fc.assert(
		fc.property(fc.nat(100_000), fc.constantFrom(...combi.faults.map((one) => one.id)), (seed, fault) => {
			const once = run(sampleMachine(combi, seed, { fault }).faulty, 'tap');
			const again = run(sampleMachine(combi, seed, { fault }).faulty, 'tap');
			expect(again).toEqual(once);
		}),
		{ numRuns: 60, seed: 21 }
	);
});

test('every quantity is a number on every machine', () => {
	fc.assert(
		fc.property(fc.nat(100_000), fc.constantFrom(...combi.faults.map((one) => one.id)), (seed, fault) => {
			const machine = sampleMachine(combi, seed, { fault }).faulty;
			for (const demand of ['none', 'tap', 'part-tap', 'heating', 'both'] as const) {
				for (const [key, value] of Object.entries(run(machine, demand))) if (Number.isNaN(value)) throw new Error(`${demand} ${key}`);
			}
		}),
		{ numRuns: 80, seed: 22 }
	);
});
