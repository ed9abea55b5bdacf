import { describe, expect, it } from 'vitest';
import { betaOhm, ntc10k, ntcCurveThrough, ntcOhm, ntcTempC, platinumOhm, type NtcPoint } from '#shared/physics/thermistor.ts';
import { within, withinShare } from './within.ts';

describe('10 kohm thermistor, B25/85 = 3977 K', () => {
	it('has the resistances of the published coefficients', () => {
		// Computed from the extended Steinhart-Hart coefficients of the component data sheet, as quoted in public firmware. 0.2 %: the last figure of the least.
		const table: [number, number][] = [
			[-10, 55015],
			[0, 32541],
			[10, 19868],
			[20, 12487],
			[25, 10000],
			[30, 8060],
			[40, 5331],
			[50, 3606],
			[60, 2490],
			[65, 2085],
			[70, 1753],
			[80, 1256],
			[85, 1070],
			[90, 915],
			[100, 677]
		];
		for (const [tempC, ohm] of table) withinShare(ntcOhm(tempC, ntc10k), ohm, 0.002, `${tempC} degC`);
	});

	it('has the resistances printed in the data sheet', () => {
		// From memory of the R/T table of the component data sheet, not re-read. 0.3 %: the allowance stated for figures from memory.
		const table: [number, number][] = [
			[0, 32554],
			[10, 19872],
			[20, 12488],
			[50, 3605],
			[80, 1258]
		];
		for (const [tempC, ohm] of table) withinShare(ntcOhm(tempC, ntc10k), ohm, 0.003, `${tempC} degC`);
	});

	it('has the B value that it is sold by', () => {
		// Definition of B25/85, IEC 60539-1 (from memory); 3977 K is the data sheet's name for the part. 0.1 %: five-figure coefficients.
		const t25 = 298.15;
		const t85 = 358.15;
		const b = Math.log(ntcOhm(25, ntc10k) / ntcOhm(85, ntc10k)) / (1 / t25 - 1 / t85);
		withinShare(b, 3977, 0.001, 'B25/85');
	});
});

/**
 * Three points of a measured table fix the curve; every other row must then lie on it. The tables are those of the Linux kernel,
 * drivers/hwmon/ntc_thermistor.c, transcribed there from component data sheets: read in that source, independent of any equation here.
 */
const measured: { name: string; r25: number; through: [number, number, number]; table: Record<number, number> }[] = [
	{
		name: '10 kohm, B25/85 about 3435 K',
		r25: 10000,
		through: [0, 50, 85],
		table: {
			0: 27326,
			10: 17973,
			15: 14703,
			20: 12090,
			25: 10000,
			30: 8311,
			40: 5825,
			45: 4911,
			50: 4158,
			55: 3536,
			60: 3019,
			65: 2588,
			70: 2227,
			75: 1924,
			80: 1668,
			85: 1451,
			90: 1266,
			95: 1108,
			100: 973
		}
	},
	{
		name: '47 kohm, B25/85 about 4108 K',
		r25: 47000,
		through: [0, 50, 80],
		table: { 0: 158214, 10: 95227, 20: 59065, 25: 47000, 40: 24591, 50: 16433, 60: 11209, 70: 7798, 80: 5518, 90: 3972, 100: 2902 }
	},
	{
		name: '100 kohm, B25/85 about 4311 K',
		r25: 100000,
		through: [0, 50, 80],
		table: { 0: 357012, 10: 209710, 20: 127080, 25: 100000, 40: 50677, 50: 33195, 60: 22224, 70: 15184, 80: 10566, 90: 7481, 100: 5384 }
	}
];

describe.each(measured)('measured table of $name', ({ r25, through, table }) => {
	const points = through.map((tempC) => ({ tempC, ohm: table[tempC] })) as [NtcPoint, NtcPoint, NtcPoint];
	const curve = ntcCurveThrough(r25, points);

	it('lies on the extended Steinhart-Hart curve through three of its points', () => {
		// 0.5 %: the allowance stated for these tables, whose last figures are rounded and whose parts are far wider.
		for (const [tempC, ohm] of Object.entries(table)) withinShare(ntcOhm(Number(tempC), curve), ohm, 0.005, `${tempC} degC`);
	});

	it('gives back the temperature', () => {
		// 0.15 K: 0.5 % of resistance at 3 to 5 % a kelvin.
		for (const [tempC, ohm] of Object.entries(table)) within(ntcTempC(ohm, curve), Number(tempC), 0.15, `${ohm} ohm`);
	});
});

describe('beta equation', () => {
	it('is right by arithmetic', () => {
		// Computed from R = R25 exp(B (1/T - 1/298.15)); 0.05 %: whole ohms at the hot end.
		const rows: [number, number, number, number][] = [
			[0, 10000, 3977, 33900],
			[50, 10000, 3977, 3563],
			[100, 10000, 3977, 685],
			[60, 10000, 3435, 2981],
			[40, 12000, 3750, 6570],
			[80, 20000, 3977, 2505]
		];
		for (const [tempC, r25, beta, ohm] of rows) withinShare(betaOhm(tempC, r25, beta), ohm, 0.0007, `${r25} ohm, ${beta} K, ${tempC} degC`);
	});

	it('is off a real part by the shares computed for it, and by less than 1 K', () => {
		// Computed against the 3977 K extended curve: +4.2 % at 0, -1.2 % at 50, +1.2 % at 100 degC; 0.1: the last figure given.
		for (const [tempC, percent] of [
			[0, 4.2],
			[50, -1.2],
			[100, 1.2]
		] as const) {
			within(100 * (betaOhm(tempC, 10000, 3977) / ntcOhm(tempC, ntc10k) - 1), percent, 0.1, `${tempC} degC`);
			expect(Math.abs(ntcTempC(betaOhm(tempC, 10000, 3977), ntc10k) - tempC)).toBeLessThan(1);
		}
	});
});

describe('platinum, IEC 60751', () => {
	it('has the resistances of the standard', () => {
		// IEC 60751 as read in a stored sensor reference table; 0.01 ohm: its last figure.
		for (const [tempC, ohm] of [
			[0, 100],
			[20, 107.79],
			[50, 119.4],
			[60, 123.24],
			[80, 130.9],
			[100, 138.51]
		] as const) {
			within(platinumOhm(tempC, 100), ohm, 0.01, `${tempC} degC`);
		}
		// Computed: 1193.97 and 1385.06 ohm for the sensor of 1000 ohm.
		within(platinumOhm(50, 1000), 1193.97, 0.05, '50 degC');
		within(platinumOhm(100, 1000), 1385.06, 0.05, '100 degC');
	});
});
