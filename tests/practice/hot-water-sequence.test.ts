// Facts of the trade, each common practice with no published source, held against many sampled callouts.
import { describe, expect, test } from 'vitest';
import { combi, calloutsWith, machinesWith, run } from '../sampled.ts';

/** A driven terminal shows the mains; what it picks up from its neighbours is far below this [V]. */
const LIVE_V = 200;

describe('1. the circulating pump runs in hot-water demand as well as in heating demand', () => {
	test('on healthy appliances', () => {
		for (const { faulty } of machinesWith('none', 60)) {
			expect(run(faulty, 'tap').pumpV).toBeGreaterThan(LIVE_V);
			expect(run(faulty, 'heating').pumpV).toBeGreaterThan(LIVE_V);
			expect(run(faulty, 'none').pumpV).toBeLessThan(LIVE_V);
		}
	});
});

describe('2. with no sensor on the hot-water outlet, the fan follows the primary sensors and the dial, not the tap', () => {
	test('turning the dial down winds the fan down', () => {
		for (const { faulty } of machinesWith('none', 40)) {
			const high = run({ ...faulty, 'tapDial.set': 1 }, 'tap');
			const low = run({ ...faulty, 'tapDial.set': 0.1 }, 'tap');
			expect(low.fanPercent).toBeLessThan(high.fanPercent - 10);
			expect(low.primaryFlowTempC).toBeLessThan(high.primaryFlowTempC);
		}
	});

	test('a tap made colder beyond the appliance does not bring the fan up', () => {
		for (const { faulty } of machinesWith('none', 40)) {
			const crossed = run({ ...faulty, 'mixer.crossOpen': 1 }, 'tap');
			const sound = run(faulty, 'tap');
			expect(crossed.tapTempC).toBeLessThan(sound.tapTempC);
			expect(crossed.fanPercent).toBeLessThanOrEqual(sound.fanPercent + 0.5);
		}
	});
});

describe('3. tap open, water at mains temperature, nothing starts: the flow turbine is proved first', () => {
	test('with a dead turbine nothing later in the sequence happens', () => {
		for (const { faulty } of calloutsWith('turbine-dead', 60)) {
			const q = run(faulty, 'tap');
			// What stood warm in the plate exchanger has run off long before the run is read.
			expect(q.tapRiseK).toBeLessThan(0.2);
			expect(q.tapFlowLpm).toBeGreaterThan(4);
			expect(q.turbineHz).toBe(0);
			expect(q.turbineSteadiness).toBe(0);
			for (const later of ['pumpRunsShare', 'fanPercent', 'sparks', 'burnerStarts', 'heatInputNetKw', 'lockout'])
				expect(q[later], later).toBe(0);
			for (const terminal of ['pumpV', 'fanV', 'gasValveV', 'diverterTapV']) expect(q[terminal], terminal).toBeLessThan(LIVE_V);
		}
	});

	test('an indicator lit and pulsing shows that it works', () => {
		for (const { faulty } of machinesWith('none', 60)) {
			const q = run(faulty, 'tap');
			expect(q.turbineSteadiness).toBeGreaterThan(0.98);
			expect(q.turbineHz).toBeGreaterThan(30);
		}
	});
});

describe('12. overheating shuts the burner down and is shown', () => {
	test('no machine of any fault goes on firing above the limit', () => {
		for (const fault of combi.faults) {
			for (const { faulty } of machinesWith(fault.id, 12)) {
				for (const demand of ['tap', 'heating'] as const) {
					const { signals } = combi.model.trace(faulty, demand, 240);
					signals.primaryFlowTempC.forEach((tempC, i) => {
						if (tempC > faulty['limit.opensC'] + 3) expect(signals.burnerOn[i], fault.id).toBe(0);
					});
				}
			}
		}
	});

	test('a main exchanger with no flow at all is shut down before it reaches the limit, and the appliance says so', () => {
		for (const { faulty } of machinesWith('pump-seized', 60)) {
			const q = run(faulty, 'tap');
			expect(q.lockout).toBeGreaterThan(0);
			expect(q.burnerOnFraction).toBe(0);
		}
	});
});
