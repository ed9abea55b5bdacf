import { describe, expect, it } from 'vitest';
import { ntc10k, ntcTempC } from '#shared/physics/thermistor.ts';
import { problemOf } from '#shared/review/drills/sums/problem.ts';
import { sensorSums } from '#shared/review/drills/sums/sensors.ts';
import { solved } from './solved-sum.ts';
import { within, withinShare } from './within.ts';

describe('falling sensors', () => {
	it('have the resistances of the beta equation', () => {
		// Computed, IEC 60539-1 form (from memory): R25, B, degC, ohm. 0.05 %: the table's allowance.
		for (const [r25, beta, temp, ohm] of [
			[10000, 3977, 10, 20272],
			[10000, 3977, 60, 2463],
			[10000, 3435, 40, 5759],
			[12000, 3750, 40, 6570],
			[20000, 3977, 80, 2505]
		] as const) {
			withinShare(solved('thermistor-resistance', { r25, beta, temp }), ohm, 0.0005, `${temp} degC`);
		}
	});

	it('come near a measured table', () => {
		// Linux kernel, drivers/hwmon/ntc_thermistor.c, table b57330v2103, from a component data sheet: B25/85 is 3435 K. One B holds over one
		// interval; it is exact at its ends and up to 2 % off between them.
		withinShare(solved('thermistor-resistance', { r25: 10000, beta: 3435, temp: 85 }), 1451, 0.001, '85 degC');
		withinShare(solved('thermistor-resistance', { r25: 10000, beta: 3435, temp: 50 }), 4158, 0.02, '50 degC');
	});

	it('read from a table straight between its rows lie within half a kelvin of the curve', () => {
		// Rows of the 10 kohm sensor of B25/85 = 3977 K, from the coefficients of its data sheet as quoted in public firmware; 2085 ohm is its 65 degC.
		const rows = { at40: 5331, at50: 3606, at60: 2490, at70: 1753 };
		within(solved('sensor-temperature', { ...rows, read: 2085 }), 65, 0.55, 'degC');
		const sum = sensorSums.find(({ id }) => id === 'sensor-temperature');
		for (let seed = 0; seed < 100; seed++) {
			const { given, answer } = problemOf(sum as (typeof sensorSums)[number], seed);
			within(answer, ntcTempC(given['read'] as number, ntc10k), 0.6, `${given['read']} ohm`);
		}
	});
});

it('platinum has the resistances of the standard', () => {
	// IEC 60751, as a stored sensor reference table gives it: Pt100 119.40, 123.24, 130.90, 138.51 ohm. 0.15 %: the straight line.
	for (const [temp, pt100] of [
		[50, 119.4],
		[60, 123.24],
		[80, 130.9],
		[100, 138.51]
	] as const) {
		withinShare(solved('platinum-resistance', { rise: 3.85, temp }), 10 * pt100, 0.0015, `${temp} degC`);
	}
});

it('a divider shares the supply as the resistances are', () => {
	// Ohm's and Kirchhoff's laws, any electricity text (from memory). By hand: equal resistances halve it; 3 to 1 leaves a quarter.
	within(solved('divider-voltage', { supply: 5, fixed: 10000, sensor: 10000 }), 2.5, 1e-9, 'V');
	within(solved('divider-voltage', { supply: 5, fixed: 9000, sensor: 3000 }), 1.25, 1e-9, 'V');
});

describe('mains loads', () => {
	it('a 3 kW immersion heater takes 13.0 A and has 17.6 ohm', () => {
		// Computed, Ohm's law at 230 V. 0.5 %: the last figures.
		withinShare(solved('load-current', { power: 3, supply: 230 }), 13.0, 0.005, 'A');
		withinShare(solved('element-resistance', { power: 3, supply: 230 }), 17.6, 0.005, 'ohm');
	});

	it('plug fuses: 3 A carries up to about 700 W, 13 A up to about 3 kW', () => {
		// Common practice, no source (ratings of BS 1362 from memory).
		expect(solved('fuse-size', { one: 400, other: 280, supply: 230 })).toBe(3);
		expect(solved('fuse-size', { one: 400, other: 320, supply: 230 })).toBe(5);
		expect(solved('fuse-size', { one: 1500, other: 1400, supply: 230 })).toBe(13);
		expect(solved('fuse-size', { one: 1700, other: 1400, supply: 230 })).toBe(Infinity);
	});

	it('a copper winding has 1.236 times its resistance at 80 degC', () => {
		// IEC 60028 coefficient 0.00393 per K (from memory). 0.2 %.
		withinShare(solved('winding-warm', { at20: 100, temp: 80, growth: 0.00393 }), 123.6, 0.002, 'ohm');
	});

	it('elements side by side conduct together', () => {
		// By hand, any electricity text: 30 and 60 ohm are 20 ohm, and two alike are half of one. Two of 1.5 kW are one of 3 kW (17.6 ohm).
		within(solved('parallel-elements', { one: 30, other: 60 }), 20, 1e-9, 'ohm');
		const half = solved('element-resistance', { power: 1.5, supply: 230 });
		withinShare(solved('parallel-elements', { one: half, other: half }), 17.6, 0.005, 'ohm');
	});
});
