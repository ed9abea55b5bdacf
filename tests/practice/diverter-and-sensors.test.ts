// Facts of the trade, each common practice with no published source, held against many sampled callouts.
import { describe, expect, test } from 'vitest';
import { calloutsWith, lockoutNumber, machinesWith, run } from '../sampled.ts';

const LIVE_V = 200;
const many = 40;

/** Which of the motor's two switched lives is driven, in hot-water demand and in heating demand. */
function lives(machine: Parameters<typeof run>[0]) {
	const tap = run(machine, 'tap');
	const heating = run(machine, 'heating');
	return {
		tapInTap: tap.diverterTapV > LIVE_V,
		heatingInTap: tap.diverterHeatingV > LIVE_V,
		tapInHeating: heating.diverterTapV > LIVE_V,
		heatingInHeating: heating.diverterHeatingV > LIVE_V
	};
}
const boardGood = { tapInTap: true, heatingInTap: false, tapInHeating: false, heatingInHeating: true };

describe('9. the diverter rests in the hot-water position and can jam in the heating position; clip off, its pin is seen to move', () => {
	test('at rest, in hot water and in heating', () => {
		for (const { faulty } of machinesWith('none', many)) {
			expect(run(faulty, 'none').diverterAtShare).toBe(0);
			expect(run(faulty, 'tap').diverterAtShare).toBe(0);
			expect(run(faulty, 'heating').diverterAtShare).toBe(1);
			expect(run(faulty, 'heating').diverterPinTravelShare).toBe(1);
		}
	});

	test('jammed in heating: the tap stays cold, the heating pipe heats, the motor pin still moves', () => {
		for (const { faulty } of calloutsWith('diverter-stuck-heating', many)) {
			const q = run(faulty, 'tap');
			expect(q.tapRiseK).toBeLessThan(1);
			expect(q.heatingPipeAboveRoomK).toBeGreaterThan(15);
			expect(q.diverterPinTravelShare).toBe(1);
		}
	});
});

describe('10. two switched lives with a shared neutral', () => {
	test('live on one side in hot water and on the other in heating: the board is good', () => {
		for (const { faulty } of machinesWith('none', many)) expect(lives(faulty)).toEqual(boardGood);
	});

	test('missing in one demand: the board', () => {
		for (const { faulty } of calloutsWith('board-no-tap-output', 20)) expect(lives(faulty)).toEqual({ ...boardGood, tapInTap: false });
		for (const { faulty } of calloutsWith('board-no-heating-output', 20))
			expect(lives(faulty)).toEqual({ ...boardGood, heatingInHeating: false });
	});

	test('live in both and no movement: the motor', () => {
		for (const { faulty } of calloutsWith('diverter-motor-failed', many)) {
			expect(lives(faulty)).toEqual(boardGood);
			expect(run(faulty, 'heating').diverterPinTravelShare).toBe(0);
			expect(run(faulty, 'heating').diverterAtShare).toBe(run(faulty, 'tap').diverterAtShare);
		}
	});

	test('motor moves and the heating pipe still warms: the cartridge', () => {
		for (const { faulty } of calloutsWith('diverter-passing', many)) {
			expect(lives(faulty)).toEqual(boardGood);
			expect(run(faulty, 'heating').diverterPinTravelShare).toBe(1);
			expect(run(faulty, 'tap').heatingPipeAboveRoomK).toBeGreaterThan(8);
		}
	});
});

describe('11. the two primary sensors watch each other', () => {
	test('a large disagreement shuts the burner down and is shown', () => {
		for (const { faulty } of machinesWith('flow-sensor-reads-cold', many, 1)) {
			const shown = [run(faulty, 'tap').lockout, run(faulty, 'part-tap').lockout, run(faulty, 'heating').lockout];
			expect(shown).toContain(lockoutNumber('sensors-disagree'));
		}
	});

	test('a fast rise shuts the burner down and is shown', () => {
		for (const { faulty } of machinesWith('pump-seized', many)) expect(run(faulty, 'tap').lockout).toBe(lockoutNumber('no-circulation'));
	});

	test('off the pipes, sound sensors of one type read nearly the same; on them they need not', () => {
		const apart = machinesWith('none', many).filter(({ faulty }) => {
			const q = run(faulty, 'none');
			// Sound ones differ by a few per cent; a drifted one by tens.
			expect(Math.abs(q.flowSensorOffOhm / q.returnSensorOffOhm - 1)).toBeLessThan(0.1);
			return q.flowSensorOhm / q.returnSensorOhm < 0.95;
		});
		expect(apart.length).toBeGreaterThan(many / 2);
	});

	test.each(['flow-sensor-reads-hot', 'flow-sensor-reads-cold', 'return-sensor-drifted'])(
		'off the pipes, %s condemns the odd one',
		(fault) => {
			for (const { faulty } of calloutsWith(fault, many)) {
				const q = run(faulty, 'none');
				expect(Math.abs(Math.log(q.flowSensorOffOhm / q.returnSensorOffOhm))).toBeGreaterThan(0.3);
			}
		}
	);
});
