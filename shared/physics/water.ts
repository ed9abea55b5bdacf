/**
 * Liquid water at about atmospheric pressure, 0 to 100 degC.
 *
 * Polynomials in t/100 fitted to IAPWS-IF97 at 0.101325 MPa, 5 to 90 degC. Pressure is ignored: at 3 bar density is 0.01 % higher.
 */

/**
 * Density of liquid water.
 *
 * rho = sum a_i (t/100)^i, degree 4; within 0.01 % of IF97 from 0 to 100 degC.
 * @param tempC [degC], 0 to 100
 * @returns [kg/m3]
 * @see IAPWS-IF97, computed with the IAPWS library; checked in tests/published/water.test.ts
 */
export function densityKgPerM3(tempC: number): number {
	const x = tempC / 100;
	return 999.9238 + x * (4.683313 + x * (-74.07784 + x * (41.02138 - x * 13.30084)));
}

/**
 * Specific heat of liquid water at constant pressure.
 *
 * cp = sum a_i (t/100)^i, degree 5; within 0.06 % of IF97 from 0 to 100 degC.
 * @param tempC [degC], 0 to 100
 * @returns [kJ/(kg K)]
 * @see IAPWS-IF97, computed with the IAPWS library; checked in tests/published/water.test.ts
 */
export function specificHeatKjPerKgK(tempC: number): number {
	const x = tempC / 100;
	return 4.217473 + x * (-0.2953959 + x * (0.9021456 + x * (-1.465494 + x * (1.307308 - x * 0.4517785))));
}

/**
 * Heat that warms one litre of water by one kelvin.
 *
 * c = rho cp / 1000
 *
 * Limit: with cp taken where the volume is counted and not at the mean of a rise, cold water warmed by 30 K comes out 0.3 % high.
 * @param tempC [degC], 0 to 100: of the water where its volume is counted
 * @returns [kJ/(l K)]
 * @see IAPWS-IF97, by density and specific heat above; checked in tests/published/hot-water.test.ts
 */
export function heatPerLitreK(tempC: number): number {
	return (densityKgPerM3(tempC) * specificHeatKjPerKgK(tempC)) / 1000;
}

/**
 * Heat capacity that a flow of water carries.
 *
 * C = q c / 60, with c by litre
 * @param flowLpm [l/min], >= 0
 * @param tempC   [degC], 0 to 100: of the water where its flow is counted
 * @returns [kW/K]
 * @see EN 13203-1 for the rise by which hot-water flow is declared; checked in tests/published/hot-water.test.ts
 */
export function streamKwPerK(flowLpm: number, tempC: number): number {
	return (flowLpm * heatPerLitreK(tempC)) / 60;
}

const buckPa = 611.21;
const buckA = 18.678;
const buckB = 257.14;
const buckC = 234.5;

/**
 * Pressure of saturated water vapour over liquid water.
 *
 * p = 611.21 exp((18.678 - t / 234.5) t / (257.14 + t)) Pa
 *
 * Within 0.05 % of IF97 from 45 to 60 degC; the enhancement of vapour in air (0.5 %) is left out.
 * @param tempC [degC], 0 to 100
 * @returns [kPa]
 * @see Buck, New equations for computing vapor pressure and enhancement factor, 1981, revised 1996; checked in tests/published/water.test.ts
 */
export function saturationKpa(tempC: number): number {
	return (buckPa / 1000) * Math.exp(((buckA - tempC / buckC) * tempC) / (buckB + tempC));
}

/**
 * Temperature at which water vapour of a given pressure is saturated: the exact inverse of `saturationKpa`.
 *
 * t = (C / 2) (s - sqrt(s^2 - 4 B L / C)),  L = ln(p / 611.21 Pa),  s = 18.678 - L,  B = 257.14,  C = 234.5
 * @param pressureKpa [kPa], 0.6 to 101
 * @returns [degC]
 * @see Buck, as `saturationKpa`; checked in tests/published/water.test.ts
 */
export function saturationTempC(pressureKpa: number): number {
	const l = Math.log((pressureKpa * 1000) / buckPa);
	const s = buckA - l;
	return (buckC / 2) * (s - Math.sqrt(s * s - (4 * buckB * l) / buckC));
}
