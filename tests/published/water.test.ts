import { describe, it } from 'vitest';
import { densityKgPerM3, saturationKpa, saturationTempC, specificHeatKjPerKgK } from '#shared/physics/water.ts';
import { within, withinShare } from './within.ts';

/** degC, density kg/m3, cp kJ/(kg K), enthalpy kJ/kg; 0.101325 MPa; computed with the IAPWS library (IF97). */
const iapws = [
	[5, 999.967, 4.2049, 21.12],
	[10, 999.702, 4.1954, 42.12],
	[15, 999.101, 4.1891, 63.08],
	[20, 998.206, 4.1848, 84.01],
	[25, 997.048, 4.1819, 104.93],
	[30, 995.652, 4.18, 125.83],
	[40, 992.224, 4.1786, 167.62],
	[50, 988.047, 4.1796, 209.41],
	[60, 983.211, 4.1828, 251.22],
	[65, 980.566, 4.1852, 272.14],
	[70, 977.779, 4.1881, 293.08],
	[80, 971.803, 4.1955, 334.99],
	[90, 965.319, 4.205, 376.99]
] as const;

describe('liquid water against IAPWS', () => {
	// Allowances: density 0.05 %, cp 0.1 %. The fits were made to the table; these guard them.
	it.each(iapws)('at %d degC', (tempC, density, cp) => {
		withinShare(densityKgPerM3(tempC), density, 0.0005, 'density');
		withinShare(specificHeatKjPerKgK(tempC), cp, 0.001, 'specific heat');
	});

	it('has a specific heat whose integral is the rise of enthalpy', () => {
		// Enthalpy was not fitted: an independent column. 0.1 %: that of cp.
		for (let i = 1; i < iapws.length; i++) {
			const [from, , , before] = iapws[i - 1] as (typeof iapws)[number];
			const [to, , , after] = iapws[i] as (typeof iapws)[number];
			const cp = (specificHeatKjPerKgK(from) + 4 * specificHeatKjPerKgK((from + to) / 2) + specificHeatKjPerKgK(to)) / 6;
			// Two figures rounded to 0.01 may put their difference 0.01 off.
			within(cp * (to - from), after - before, 0.001 * (after - before) + 0.01, `${from} to ${to} degC`);
		}
	});
});

describe('liquid water against handbooks', () => {
	it('keeps to them outside the fitted span', () => {
		// From memory of handbook tables: density 999.84 at 0 and 958.4 at 100 degC; cp 4.2176 (older tables) to 4.2199 at 0.
		withinShare(densityKgPerM3(0), 999.84, 0.0005, 'density at 0');
		withinShare(densityKgPerM3(100), 958.4, 0.0005, 'density at 100');
		withinShare(specificHeatKjPerKgK(0), 4.2199, 0.001, 'specific heat at 0');
		withinShare(specificHeatKjPerKgK(100), 4.2157, 0.001, 'specific heat at 100');
	});

	it('expands by the published shares', () => {
		// Computed with the IAPWS library, 0.1 MPa: per cent from 10 to 60, 65 and 80 degC, and from 4 to 60, 82 and 90; 0.02: two densities, each within 0.01 %.
		for (const [from, to, percent] of [
			[10, 60, 1.677],
			[10, 65, 1.951],
			[10, 80, 2.871],
			[4, 60, 1.705],
			[4, 82, 3.032],
			[4, 90, 3.59]
		] as const) {
			within(100 * (densityKgPerM3(from) / densityKgPerM3(to) - 1), percent, 0.02, `${from} to ${to} degC`);
		}
	});
});

describe('saturated vapour', () => {
	/** degC, kPa; computed with the IAPWS library; 0.2 %: four times what Buck's formula is off here. */
	const saturation = [
		[45, 9.594],
		[50, 12.351],
		[55, 15.761],
		[57, 17.335],
		[60, 19.946]
	] as const;

	it('has the pressures of the IAPWS library', () => {
		for (const [tempC, kpa] of saturation) withinShare(saturationKpa(tempC), kpa, 0.002, `${tempC} degC`);
	});

	it('gives back the temperature', () => {
		// 0.05 K: 0.2 % of pressure at 5 % a kelvin.
		for (const [tempC, kpa] of saturation) within(saturationTempC(kpa), tempC, 0.05, `${kpa} kPa`);
	});

	it('is 0.6117 kPa at the triple point and boils at 100 degC', () => {
		// From memory, any steam table: 0.6117 kPa at 0.01 degC; 101.325 kPa at 99.97 degC.
		withinShare(saturationKpa(0.01), 0.6117, 0.002, 'triple point');
		within(saturationTempC(101.325), 99.97, 0.1, 'boiling point');
	});
});
