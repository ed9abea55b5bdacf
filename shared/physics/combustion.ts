/**
 * Burning a fuel gas with excess air: products, dew point, and the heat that leaves by the flue.
 *
 * Volumes are of ideal gases, so a cubic metre per cubic metre is a mole per mole. Air is 20.95 % oxygen, the rest nitrogen.
 * Burning is complete: carbon monoxide is too little to count in heat. Air short of the stoichiometric is taken as stoichiometric.
 */
import { airKgPerM3, gases, type FuelGas, type GasId } from './gas.ts';
import { saturationKpa, saturationTempC } from './water.ts';

const oxygenOfAir = 0.2095;
/** What an analyser of combustion products shows in fresh air [%]. */
const freshAirO2Percent = 20.9;
const standardKpa = 101.325;

/** A fuel gas as burnt: one mole with stoichiometric dry air. */
export interface CombustionGas extends FuelGas {
	readonly id: GasId;
	/** Stoichiometric air [m3/m3]. */
	readonly airM3: number;
	/** Dry products at stoichiometric air [m3/m3]. */
	readonly dryM3: number;
	/** Carbon dioxide [m3/m3]. */
	readonly co2M3: number;
	/** Water vapour [m3/m3]. */
	readonly vapourM3: number;
	/** Greatest carbon dioxide in dry products [%]. */
	readonly co2MaxPercent: number;
	/** Net heat of combustion [kJ/mol]. */
	readonly netKjPerMol: number;
}

/** Moles in one mole of fuel: carbon, hydrogen atoms, nitrogen gas; and its molar mass [g/mol]. */
interface Composition {
	readonly carbon: number;
	readonly hydrogen: number;
	readonly nitrogen: number;
	readonly gramPerMol: number;
}

const compositions: Readonly<Record<GasId, Composition>> = {
	G20: { carbon: 1, hydrogen: 4, nitrogen: 0, gramPerMol: 16.043 },
	G25: { carbon: 0.86, hydrogen: 3.44, nitrogen: 0.14, gramPerMol: 0.86 * 16.043 + 0.14 * 28.013 },
	G30: { carbon: 4, hydrogen: 10, nitrogen: 0, gramPerMol: 58.123 },
	G31: { carbon: 3, hydrogen: 8, nitrogen: 0, gramPerMol: 44.097 }
};

function burnt(id: GasId): CombustionGas {
	const gas = gases[id];
	const { carbon, hydrogen, nitrogen, gramPerMol } = compositions[id];
	const oxygen = carbon + hydrogen / 4;
	const airM3 = oxygen / oxygenOfAir;
	const dryM3 = airM3 - oxygen + carbon + nitrogen;
	// The tabled density makes the molar volume that of the real gas, to which the tabled calorific value belongs.
	const litrePerMol = gramPerMol / (gas.relativeDensity * airKgPerM3);
	return {
		...gas,
		id,
		airM3,
		dryM3,
		co2M3: carbon,
		vapourM3: hydrogen / 2,
		co2MaxPercent: (100 * carbon) / dryM3,
		netKjPerMol: gas.netMjPerM3 * litrePerMol
	};
}

const bundles: Readonly<Record<GasId, CombustionGas>> = { G20: burnt('G20'), G25: burnt('G25'), G30: burnt('G30'), G31: burnt('G31') };

/**
 * A reference gas with its stoichiometry.
 *
 * CxHy + (x + y/4) O2 = x CO2 + (y/2) H2O;  air = oxygen / 0.2095;  dry products = air - oxygen + x + nitrogen of the fuel
 * @returns air, products [m3/m3], greatest CO2 [%], heat [MJ/m3, kJ/mol]; the same object each time
 * @see stoichiometry, any combustion text, and EN 437; checked in tests/published/combustion.test.ts
 */
export function combustionOf(id: GasId): CombustionGas {
	return bundles[id];
}

/**
 * Carbon dioxide in the dry products.
 *
 * CO2 = CO2max / (1 + (lambda - 1) air / dry)
 * @param lambda air over stoichiometric air [-]; below 1 is taken as 1
 * @returns [%] by volume, dry
 * @see stoichiometry, any combustion text; checked in tests/published/combustion.test.ts
 */
export function co2Percent(lambda: number, gas: CombustionGas): number {
	return gas.co2MaxPercent / (1 + (atLeastOne(lambda) - 1) * (gas.airM3 / gas.dryM3));
}

/**
 * Excess air from the carbon dioxide in the dry products: the inverse of `co2Percent`.
 *
 * lambda = 1 + (dry / air) (CO2max / CO2 - 1)
 * @param co2 [%] by volume, dry, above 0 and at most the gas's greatest
 * @returns air over stoichiometric air [-]; infinite for 0
 * @see stoichiometry, any combustion text; checked in tests/published/combustion.test.ts
 */
export function lambdaFromCo2(co2: number, gas: CombustionGas): number {
	return 1 + (gas.dryM3 / gas.airM3) * (gas.co2MaxPercent / co2 - 1);
}

/**
 * Oxygen in the dry products, as an analyser reckons one from the other.
 *
 * O2 = 20.9 (1 - CO2 / CO2max)
 * @param co2    [%] by volume, dry
 * @param co2Max greatest CO2 of the fuel [%], dry
 * @returns [%] by volume, dry
 * @see stoichiometry, and industry practice for the 20.9 %; checked in tests/published/combustion.test.ts
 */
export function o2Percent(co2: number, co2Max: number): number {
	return freshAirO2Percent * (1 - co2 / co2Max);
}

/**
 * Ratio of carbon monoxide to carbon dioxide.
 *
 * ratio = (CO / 10000) / CO2
 * @param coPpm [ppm] by volume, dry, >= 0
 * @param co2   [%] by volume, dry, >= 0
 * @returns [-]; 0 where there is neither, infinite where there is only carbon monoxide
 * @see BS 7967; checked in tests/published/combustion.test.ts
 */
export function coRatio(coPpm: number, co2: number): number {
	return coPpm === 0 ? 0 : coPpm / 10000 / co2;
}

/**
 * Temperature at which the flue gas begins to condense.
 *
 * Vapour pressure = p v / (v + dry + (lambda - 1) air), turned to a temperature by `saturationTempC`; p = 101.325 kPa
 * @param lambda    air over stoichiometric air [-]; below 1 is taken as 1
 * @param airVapour water vapour in the combustion air [m3/m3 of dry air], 0 when left out; 0.014 at 20 degC and 60 %
 * @returns [degC]
 * @see Dalton's law, any combustion text; Buck for the vapour; checked in tests/published/combustion.test.ts
 */
export function dewPointC(lambda: number, gas: CombustionGas, airVapour = 0): number {
	const air = atLeastOne(lambda) * gas.airM3;
	const vapour = gas.vapourM3 + air * airVapour;
	return saturationTempC((standardKpa * vapour) / (vapour + gas.dryM3 + air - gas.airM3));
}

/** Flue gas as it leaves. */
export interface Flue {
	/** Air over stoichiometric air [-]; below 1 is taken as 1. */
	readonly lambda: number;
	/** Where it leaves the exchanger [degC], 0 to 300. */
	readonly flueTempC: number;
	/** Of air and gas on entry [degC]. */
	readonly airTempC: number;
	/** Water vapour in the combustion air [m3/m3 of dry air]; 0 when left out. */
	readonly airVapour?: number;
	readonly gas: CombustionGas;
}

/**
 * Water that condenses out of the flue gas, cooled to saturation at the flue temperature.
 *
 * n = v - dry ps(t) / (p - ps(t)), not below 0; per mole of fuel
 *
 * Assumes that what leaves is saturated at its mean temperature. Limit: a real exchanger has a cold wall and a warmer core, and condenses a little above its mean.
 * @returns [mol/mol of fuel]
 * @see Dalton's law, any combustion text; checked in tests/core/physics/combustion.test.ts
 */
export function condensedPerFuel(flue: Flue): number {
	const { gas, flueTempC } = flue;
	if (flueTempC >= 100) return 0;
	const air = atLeastOne(flue.lambda) * gas.airM3;
	const saturation = saturationKpa(flueTempC);
	const left = ((gas.dryM3 + air - gas.airM3) * saturation) / (standardKpa - saturation);
	return Math.max(0, gas.vapourM3 + air * (flue.airVapour ?? 0) - left);
}

/**
 * Share of the net heat of the fuel that stays in the appliance.
 *
 * e = 1 - (sum n_i c_i (tf - ta) - n_condensed h(tf)) / Hi
 *
 * c_i is the molar heat at the mean of the two temperatures, h = 45.05 - 0.0428 t kJ/mol the heat of vaporisation. Dry products and
 * vapour lose sensible heat; what condenses gives its latent heat back and may carry the figure above 1. Losses of the casing are not counted.
 * @returns [-] on net calorific value
 * @see Siegert's formula, with which it agrees above the dew point, and NIST-JANAF molar heats; checked in tests/published/combustion.test.ts
 */
export function combustionEfficiencyNet(flue: Flue): number {
	const { gas, flueTempC, airTempC } = flue;
	const air = atLeastOne(flue.lambda) * gas.airM3;
	const spareAir = air - gas.airM3;
	const nitrogen = gas.dryM3 - gas.co2M3 + spareAir * (1 - oxygenOfAir);
	const vapour = gas.vapourM3 + air * (flue.airVapour ?? 0);
	const mean = (flueTempC + airTempC) / 2;
	// Molar heats [J/(mol K)] as straight lines through 25 and 127 degC.
	const heatJPerK =
		gas.co2M3 * (36.1 + 0.0412 * mean) +
		nitrogen * (29.09 + 0.0012 * mean) +
		spareAir * oxygenOfAir * (29.2 + 0.0071 * mean) +
		vapour * (33.42 + 0.0066 * mean);
	const sensibleKj = (heatJPerK * (flueTempC - airTempC)) / 1000;
	const latentKj = condensedPerFuel(flue) * (45.05 - 0.0428 * flueTempC);
	return 1 - (sensibleKj - latentKj) / gas.netKjPerMol;
}

function atLeastOne(lambda: number): number {
	return lambda > 1 ? lambda : 1;
}
