// Facts of the trade, each common practice with no published source, held against many sampled callouts.
import { describe, expect, test } from 'vitest';
import { stockNamed } from '../sampled.ts';

const coil = stockNamed('combi-tap-coil');
const plate = stockNamed('combi-plate-primary');
/** A driven terminal shows the mains; what it picks up from its neighbours is far below this [V]. */
const LIVE_V = 200;
const pipeIsCold = 3;
const many = 40;

describe('13. in hot-water demand a flow switch lights the burner and the pump stays off', () => {
	test('on healthy appliances, with the tap wide and part open, and with heating called for as well', () => {
		for (const { faulty } of coil.machinesWith('none', many)) {
			for (const demand of ['tap', 'part-tap', 'both'] as const) {
				const q = coil.run(faulty, demand);
				expect(q.flowSwitchInShare).toBe(1);
				expect(q.burnerStarts).toBeGreaterThan(0);
				expect(q.tapRiseK).toBeGreaterThan(20);
				expect(q.pumpV).toBeLessThan(LIVE_V);
				expect(q.primaryFlowLpm).toBe(0);
			}
			expect(coil.run(faulty, 'heating').pumpV).toBeGreaterThan(LIVE_V);
		}
	});

	test('the flow switch comes first, then the fan, the air proved, spark with gas, flame', () => {
		for (const { faulty } of coil.machinesWith('none', many)) {
			const { seconds, signals } = coil.pack.model.trace(faulty, 'tap', 60);
			const first = (key: string) => seconds[signals[key].findIndex((value) => value > 0.5)] ?? Infinity;
			const order = ['flowSwitchClosed', 'fanPercent', 'airSwitchClosed', 'sparking', 'burnerOn'].map(first);
			expect(order).toEqual(order.toSorted((a, b) => a - b));
			expect(order.at(-1)).toBeLessThan(20);
			expect(Math.max(...signals.pumpOn)).toBe(0);
		}
	});

	test('without a closed flow switch nothing later happens, and heating works as ever', () => {
		for (const { faulty } of coil.calloutsWith('flow-switch-stuck-open', many)) {
			const tap = coil.run(faulty, 'tap');
			for (const later of ['fanMostPercent', 'sparks', 'burnerStarts', 'heatInputNetKw', 'lockout']) expect(tap[later], later).toBe(0);
			expect(tap.tapFlowLpm).toBeGreaterThan(4);
			expect(coil.run(faulty, 'heating').circuitHeatKw).toBeGreaterThan(5);
		}
	});

	test('so that heat is not carried to the heating circuit: a pump that runs all the same carries it there', () => {
		for (const { faulty, sound } of coil.calloutsWith('pump-always-driven', many)) {
			const [wrong, right] = [coil.run(faulty, 'tap'), coil.run(sound, 'tap')];
			expect(right.circuitHeatKw).toBe(0);
			expect(right.heatingPipeAboveRoomK).toBeLessThan(pipeIsCold);
			expect(wrong.circuitHeatKw).toBeGreaterThan(4);
			expect(wrong.heatingPipeAboveRoomK).toBeGreaterThan(8);
			expect(wrong.tapTempC).toBeLessThan(right.tapTempC - 5);
		}
	});
});

describe('14. a check that condemns a part in one family can be normal in another', () => {
	const volts = (of: typeof coil) => of.pack.checks.find(({ id }) => id === 'measure-pump-volts')!;

	test('no volts at the pump while a tap runs: right here, a fault where a plate heats the water', () => {
		expect(volts(coil).reads).toBe(volts(plate).reads);
		for (const { faulty } of coil.machinesWith('none', many)) expect(coil.run(faulty, 'tap').pumpV).toBeLessThan(LIVE_V);
		for (const { faulty } of plate.machinesWith('none', many)) expect(plate.run(faulty, 'tap').pumpV).toBeGreaterThan(LIVE_V);
		for (const { faulty } of coil.calloutsWith('pump-always-driven', many)) expect(coil.run(faulty, 'tap').pumpV).toBeGreaterThan(LIVE_V);
	});

	test('a seized pump spoils hot water there and not here, where only heating suffers', () => {
		for (const { faulty, sound } of coil.calloutsWith('pump-seized', many)) {
			expect(coil.run(faulty, 'tap').tapTempC).toBeCloseTo(coil.run(sound, 'tap').tapTempC, 6);
			expect(coil.run(faulty, 'heating').circuitHeatKw).toBe(0);
		}
		for (const { faulty } of plate.machinesWith('pump-seized', many)) expect(plate.run(faulty, 'tap').tapRiseK).toBeLessThan(5);
	});

	test('a fan that winds down with the heat is right there; here it holds its one speed and burner pressure falls instead', () => {
		for (const { faulty } of coil.machinesWith('none', many)) {
			const [full, part] = [coil.run(faulty, 'tap'), coil.run(faulty, 'part-tap')];
			expect(part.fanPercent).toBeCloseTo(full.fanPercent, 3);
			expect(part.burnerMbar).toBeLessThan(0.85 * full.burnerMbar);
		}
		let wound = 0;
		for (const { faulty } of plate.machinesWith('none', many)) {
			if (plate.run(faulty, 'part-tap').fanPercent < 0.9 * plate.run(faulty, 'tap').fanPercent) wound += 1;
		}
		expect(wound).toBeGreaterThan(many / 2);
	});
});

describe('what tells the causes of tepid water apart in this family', () => {
	/** Callouts in which the tap is tepid: below what the same machine gives without the fault, and lit. */
	function tepid(fault: string) {
		const found = coil.calloutsWith(fault, many).filter(({ faulty, sound }) => {
			const q = coil.run(faulty, 'tap');
			return q.burnerOnFraction > 0.9 && q.tapTempC < coil.run(sound, 'tap').tapTempC - 3;
		});
		expect(found.length, `${fault} shows as tepid water in too few callouts to tell`).toBeGreaterThan(5);
		return found;
	}

	test('a scaled coil: the water round it near its highest, burner pressure falling', () => {
		for (const { faulty, sound } of tepid('coil-scaled')) {
			const q = coil.run(faulty, 'tap');
			expect(q.primaryFlowTempC).toBeGreaterThan(80);
			expect(q.burnerMbar).toBeLessThan(0.9 * coil.run(sound, 'tap').burnerMbar);
		}
	});

	test.each(['modulator-open', 'burner-pressure-set-low', 'gas-pressure-low', 'gas-cock-part-closed'])(
		'%s: burner pressure low while the board asks for all there is',
		(fault) => {
			for (const { faulty, sound } of tepid(fault)) {
				const [q, healthy] = [coil.run(faulty, 'tap'), coil.run(sound, 'tap')];
				expect(q.burnerMbar).toBeLessThan(0.9 * healthy.burnerMbar);
				expect(q.modulatorV).toBeGreaterThan(healthy.modulatorV - 0.5);
				expect(q.primaryFlowTempC).toBeLessThan(healthy.primaryFlowTempC);
			}
		}
	);

	test('blocked injectors: burner pressure as ever, gas rate down', () => {
		for (const { faulty, sound } of tepid('injectors-blocked')) {
			const [q, healthy] = [coil.run(faulty, 'tap'), coil.run(sound, 'tap')];
			expect(q.burnerMbar).toBeGreaterThan(0.97 * healthy.burnerMbar);
			expect(q.gasRateM3h).toBeLessThan(0.9 * healthy.gasRateM3h);
		}
	});

	test('a sensor that reads hot, or a dial turned down: burner pressure low because the board asks for little', () => {
		for (const fault of ['tap-sensor-reads-hot', 'tap-dial-low']) {
			for (const { faulty, sound } of tepid(fault)) {
				const [q, healthy] = [coil.run(faulty, 'tap'), coil.run(sound, 'tap')];
				expect(q.modulatorV, fault).toBeLessThan(healthy.modulatorV - 0.5);
				expect(q.burnerMbar, fault).toBeLessThan(healthy.burnerMbar);
			}
		}
	});
});

describe('the air is proved before anything is lit', () => {
	test.each(['air-switch-stuck-open', 'air-tube-off', 'fan-dead', 'board-no-fan-output', 'flue-restricted'])(
		'with %s nothing is lit, and it says so',
		(fault) => {
			for (const { faulty } of coil.machinesWith(fault, many)) {
				const q = coil.run(faulty, 'tap');
				if (q.airSwitchClosedMost > 0) continue;
				expect(q.sparks).toBe(0);
				expect(q.lockout).toBe(coil.lockoutNumber('air-not-proved'));
			}
			expect(coil.machinesWith(fault, many).some(({ faulty }) => coil.run(faulty, 'tap').airSwitchClosedMost === 0)).toBe(true);
		}
	);

	test('a switch found closed at rest keeps the fan from starting', () => {
		for (const { faulty } of coil.machinesWith('air-switch-stuck-closed', many)) {
			const q = coil.run(faulty, 'tap');
			expect(q.fanMostPercent).toBe(0);
			expect(q.airSwitchV).toBeGreaterThan(LIVE_V);
			expect(q.lockout).toBe(coil.lockoutNumber('air-switch-closed'));
		}
	});
});
