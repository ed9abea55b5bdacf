// Facts of the trade, each common practice with no published source, held against many sampled callouts.
import { describe, expect, test } from 'vitest';
import { calloutsWith, machinesWith, run } from '../sampled.ts';

const pipeIsCold = 3;
const many = 40;

/** Callouts of a fault in which the tap is tepid: below what the same machine gives without it, and lit. */
function tepid(fault: string) {
	const found = calloutsWith(fault, many).filter(({ faulty, sound }) => {
		const q = run(faulty, 'tap');
		return q.burnerOnFraction > 0.9 && q.tapTempC < run(sound, 'tap').tapTempC - 3;
	});
	expect(found.length, `${fault} shows as tepid water in too few callouts to tell`).toBeGreaterThan(5);
	return found;
}

describe('4. tepid, and the heating flow pipe warms while only the tap runs: the diverter lets primary water past', () => {
	test('so it is with a passing cartridge', () => {
		for (const { faulty } of tepid('diverter-passing')) expect(run(faulty, 'tap').heatingPipeAboveRoomK).toBeGreaterThan(8);
	});

	test.each(['plate-scaled', 'plate-blocked', 'pump-weak', 'gas-pressure-low', 'injector-blocked', 'fan-slow', 'tap-dial-broken'])(
		'and not with %s',
		(fault) => {
			for (const { faulty } of machinesWith(fault, many)) expect(run(faulty, 'tap').heatingPipeAboveRoomK).toBeLessThan(pipeIsCold);
		}
	);
});

describe('5. tepid, heating pipe cold, fan winding down from full: heat is not leaving the primary', () => {
	test.each(['plate-scaled', 'plate-blocked', 'pump-weak'])('%s does this', (fault) => {
		for (const { faulty } of tepid(fault)) {
			const q = run(faulty, 'tap');
			expect(q.heatingPipeAboveRoomK).toBeLessThan(pipeIsCold);
			expect(q.fanLatePercent).toBeLessThan(96);
		}
	});

	test('only the pump itself tells them apart', () => {
		for (const { faulty } of tepid('pump-weak')) expect(run(faulty, 'tap').pumpSpindleShare).toBeLessThan(0.33);
		for (const fault of ['plate-scaled', 'plate-blocked']) {
			for (const { faulty } of tepid(fault)) expect(run(faulty, 'tap').pumpSpindleShare).toBeGreaterThan(0.9);
		}
	});
});

describe('6. tepid with the fan held at full: not enough heat is put in', () => {
	const short = ['gas-pressure-low', 'gas-cock-part-closed', 'gas-inlet-blocked', 'injector-blocked', 'gas-valve-maladjusted'];

	test.each(short)('%s does this, with the gas rate down and the mixture lean', (fault) => {
		for (const { faulty, sound } of tepid(fault)) {
			const q = run(faulty, 'tap');
			const healthy = run(sound, 'tap');
			expect(q.fanLatePercent).toBeGreaterThan(96);
			expect(q.gasRateM3h).toBeLessThan(0.95 * healthy.gasRateM3h);
			expect(q.co2Percent).toBeLessThan(healthy.co2Percent - 0.5);
		}
	});

	test('pressure at two points separates supply from appliance', () => {
		for (const { faulty } of tepid('gas-pressure-low')) expect(run(faulty, 'tap').gasMeterMbar).toBeLessThan(18);
		for (const { faulty } of tepid('gas-cock-part-closed')) {
			const q = run(faulty, 'tap');
			expect(q.gasMeterMbar).toBeGreaterThan(19);
			expect(q.gasInletMbar).toBeLessThan(q.gasMeterMbar - 3);
		}
		for (const fault of ['gas-inlet-blocked', 'injector-blocked', 'gas-valve-maladjusted']) {
			for (const { faulty } of tepid(fault)) expect(run(faulty, 'tap').gasInletMbar, fault).toBeGreaterThan(18.5);
		}
	});
});

describe("7. a broken dial spindle leaves the setting low whatever the knob shows, and the dial's resistance tells", () => {
	test('the knob changes nothing, the track does not follow, all else is healthy', () => {
		for (const { faulty, sound } of tepid('tap-dial-broken')) {
			const q = run(faulty, 'tap');
			expect(run({ ...faulty, 'tapDial.set': 0.2 }, 'tap').tapTempC).toBe(q.tapTempC);
			expect(q.tapDialTravelOhm).toBe(0);
			expect(run(sound, 'tap').tapDialTravelOhm).toBeGreaterThan(8000);
			expect(q.tapDialOhm).toBeLessThan(0.5 * run(sound, 'tap').tapDialOhm);
			expect(q.co2Percent).toBeCloseTo(run(sound, 'tap').co2Percent, 1);
			expect(q.lockout).toBe(0);
		}
	});
});

describe('8. pump strength is judged at the spindle: one that a screwdriver can stop is weak', () => {
	test('a sound pump has at least twice the force of a weak one', () => {
		const weakest = Math.min(...machinesWith('none', many).map(({ faulty }) => run(faulty, 'tap').pumpSpindleShare));
		const running = calloutsWith('pump-weak', many)
			.map(({ faulty }) => run(faulty, 'tap'))
			.filter((q) => q.pumpRunsShare > 0.5);
		expect(running.length).toBeGreaterThan(5);
		for (const q of running) expect(q.pumpSpindleShare).toBeLessThan(weakest / 2);
	});
});
