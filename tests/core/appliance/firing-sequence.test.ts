import { expect, test } from 'vitest';
import { combi, lockoutNumber, machinesWith, run } from '../../sampled.ts';

/** When a signal first passes a value [s]; infinite where it never does. */
function first(signal: Float64Array, seconds: Float64Array, above: number): number {
	const at = signal.findIndex((value) => value > above);
	return at < 0 ? Infinity : seconds[at];
}

test('in hot-water demand: flow, pump, fan, spark with gas, flame, in that order', () => {
	for (const { faulty } of machinesWith('none', 30)) {
		const { seconds, signals } = combi.model.trace(faulty, 'tap', 60);
		const order = ['sensedTapFlowLpm', 'pumpOn', 'fanPercent', 'sparking', 'burnerOn'].map((key) => first(signals[key], seconds, 0.5));
		expect(order).toEqual([...order].sort((a, b) => a - b));
		expect(order.at(-1)).toBeLessThan(20);
		// Purged before it is lit: the fan turns for at least three seconds before gas is let in.
		expect(first(signals.gasValveOn, seconds, 0.5) - first(signals.fanPercent, seconds, 1)).toBeGreaterThanOrEqual(3);
	}
});

test('in heating the diverter travels; for a tap it stays', () => {
	for (const { faulty } of machinesWith('none', 30)) {
		expect(combi.model.trace(faulty, 'heating', 60).signals.diverterAtShare.at(-1)).toBe(1);
		expect(combi.model.trace(faulty, 'tap', 60).signals.diverterAtShare.at(-1)).toBe(0);
		expect(run(faulty, 'both').diverterAtShare).toBe(0);
	}
});

test('the gas shuts within the safety time where no flame is proved, and three tries lock out', () => {
	for (const { faulty } of machinesWith('gas-valve-shut', 20)) {
		const { signals } = combi.model.trace(faulty, 'tap', 120);
		let open = 0;
		let longest = 0;
		for (const on of signals.gasValveOn) {
			open = on ? open + 0.5 : 0;
			longest = Math.max(longest, open);
		}
		expect(longest).toBeLessThanOrEqual(5);
		expect(run(faulty, 'tap').sparks).toBe(3);
		expect(run(faulty, 'tap').lockout).toBe(lockoutNumber('no-flame'));
	}
});

test.each([
	['pump-seized', ['no-circulation', 'overheat']],
	['limit-open', ['overheat']],
	['system-pressure-low', ['low-pressure']],
	['flow-sensor-open', ['sensor-open']],
	['return-sensor-open', ['sensor-open']]
])('%s ends in a shutdown that is shown', (fault, shown) => {
	const numbers = shown.map(lockoutNumber);
	for (const { faulty } of machinesWith(fault, 30)) expect(numbers).toContain(run(faulty, 'tap').lockout);
});

test('no run of any machine takes the main exchanger to boiling under the pressure of the system', () => {
	for (const fault of combi.faults) {
		for (const { faulty } of machinesWith(fault.id, 10)) {
			for (const demand of ['tap', 'heating'] as const) {
				// 110 degC: below saturation at 1.4 bar gauge, about 126 degC (IAPWS-IF97, from memory).
				expect(Math.max(...combi.model.trace(faulty, demand, 240).signals.primaryFlowTempC), fault.id).toBeLessThan(110);
			}
		}
	}
});
