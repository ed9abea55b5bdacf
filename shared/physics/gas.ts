/** Fuel gases as EN 437 gives them, and their flow through pipe and injector. */

/** A reference gas, dry, at 15 degC and 1013.25 mbar. */
export interface FuelGas {
	readonly name: string;
	/** Calorific value, net [MJ/m3]. */
	readonly netMjPerM3: number;
	/** Calorific value, gross [MJ/m3]. */
	readonly grossMjPerM3: number;
	/** Wobbe number, net [MJ/m3]. */
	readonly netWobbe: number;
	/** Wobbe number, gross [MJ/m3]. */
	readonly grossWobbe: number;
	/** Density over that of air [-]. */
	readonly relativeDensity: number;
	/** Test pressure at the inlet of the appliance [mbar]. */
	readonly testMbar: { readonly nominal: number; readonly from: number; readonly to: number };
}

export type GasId = 'G20' | 'G25' | 'G30' | 'G31';

/**
 * Reference gases [MJ/m3, mbar], from memory of EN 437. G30 has a nominal pressure of 29 or 30 mbar by country; 30 is taken.
 * @see EN 437, tables of test gases and test pressures; checked in tests/published/gas.test.ts
 */
export const gases: Readonly<Record<GasId, FuelGas>> = {
	G20: {
		name: 'methane',
		netMjPerM3: 34.02,
		grossMjPerM3: 37.78,
		netWobbe: 45.67,
		grossWobbe: 50.72,
		relativeDensity: 0.555,
		testMbar: { nominal: 20, from: 17, to: 25 }
	},
	G25: {
		name: 'methane with 14 % nitrogen',
		netMjPerM3: 29.25,
		grossMjPerM3: 32.49,
		netWobbe: 37.38,
		grossWobbe: 41.52,
		relativeDensity: 0.612,
		testMbar: { nominal: 25, from: 20, to: 30 }
	},
	G30: {
		name: 'butane',
		netMjPerM3: 116.09,
		grossMjPerM3: 125.81,
		netWobbe: 80.58,
		grossWobbe: 87.33,
		relativeDensity: 2.075,
		testMbar: { nominal: 30, from: 25, to: 35 }
	},
	G31: {
		name: 'propane',
		netMjPerM3: 88.0,
		grossMjPerM3: 95.65,
		netWobbe: 70.69,
		grossWobbe: 76.84,
		relativeDensity: 1.55,
		testMbar: { nominal: 37, from: 25, to: 45 }
	}
};

/**
 * Density of dry air at 15 degC and 1013.25 mbar [kg/m3].
 * @see EN 437, conditions of reference; checked in tests/published/gas.test.ts
 */
export const airKgPerM3 = 1.2255;

/**
 * Wobbe number: heat that a given injector passes at a given pressure, to scale.
 *
 * W = H / sqrt(d)
 * @param calorificMjPerM3 gross or net [MJ/m3]
 * @param relativeDensity  density over that of air [-], > 0
 * @returns [MJ/m3], gross or net as given
 * @see EN 437; checked in tests/published/gas.test.ts
 */
export function wobbe(calorificMjPerM3: number, relativeDensity: number): number {
	return calorificMjPerM3 / Math.sqrt(relativeDensity);
}

/**
 * Gas that flows through an injector into the open.
 *
 * q = Cd A sqrt(2 p / rho)
 *
 * Assumes incompressible flow, right to 1 % at the pressures of a burner, and gas at 15 degC and 1013.25 mbar.
 * @param areaMm2              area of the bore [mm2], >= 0
 * @param pressureMbar         gauge pressure before it [mbar]; 0 or less passes nothing
 * @param relativeDensity      density over that of air [-], > 0
 * @param dischargeCoefficient Cd [-], 0.6 to 1
 * @returns [m3/h]
 * @see orifice equation, any fluids text; checked in tests/published/gas.test.ts
 */
export function injectorFlowM3h(areaMm2: number, pressureMbar: number, relativeDensity: number, dischargeCoefficient: number): number {
	if (!(pressureMbar > 0)) return 0;
	const metresPerS = Math.sqrt((2 * 100 * pressureMbar) / (relativeDensity * airKgPerM3));
	return dischargeCoefficient * areaMm2 * 1e-6 * metresPerS * 3600;
}

/**
 * Area of a round bore.
 *
 * A = pi d^2 / 4
 * @param diameterMm [mm], >= 0
 * @returns [mm2]
 * @see geometry; checked in tests/published/gas.test.ts
 */
export function boreMm2(diameterMm: number): number {
	return (Math.PI * diameterMm * diameterMm) / 4;
}

/**
 * Factor that takes gas as a domestic meter counts it to 15 degC and 1013.25 mbar [-]: the one used for billing in the United Kingdom.
 * @see Gas (Calculation of Thermal Energy) Regulations 1996; checked in tests/published/gas.test.ts
 */
export const meterFactor = 1.02264;

/**
 * Heat in gas that a meter has counted, as billed in the United Kingdom.
 *
 * kWh = m3 x 1.02264 x CV / 3.6
 * @param m3               counted volume [m3]
 * @param calorificMjPerM3 calorific value [MJ/m3], gross for billing
 * @returns [kWh], gross or net as the calorific value is
 * @see Gas (Calculation of Thermal Energy) Regulations 1996; checked in tests/published/gas.test.ts
 */
export function meteredHeatKwh(m3: number, calorificMjPerM3: number): number {
	return (m3 * meterFactor * calorificMjPerM3) / 3.6;
}

/**
 * Pressure that a gas flow loses in pipework, from one known loss.
 *
 * p = pn (q / qn)^2
 * @param flow          [m3/h], >= 0
 * @param lossAtNominal loss at the nominal flow [mbar], >= 0
 * @param nominalFlow   [m3/h], > 0
 * @returns [mbar]
 * @see any hydraulics text, square law of turbulent loss; BS 6891 for the millibar at full load; checked in tests/published/gas.test.ts
 */
export function pressureLossMbar(flow: number, lossAtNominal: number, nominalFlow: number): number {
	const ratio = flow / nominalFlow;
	return lossAtNominal * ratio * ratio;
}
