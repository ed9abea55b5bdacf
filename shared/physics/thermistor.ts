/** Temperature sensors whose resistance is measured. */
import { kelvinOf, zeroCelsiusK } from '#shared/quantity/units.ts';

/** A falling (NTC) sensor by the extended Steinhart-Hart equation in L = ln(R / R25). */
export interface NtcCurve {
	/** Resistance at 25 degC [ohm]. */
	readonly r25Ohm: number;
	/** Coefficients of 1, L, L^2, L^3 [1/K]. */
	readonly a: number;
	readonly b: number;
	readonly c: number;
	readonly d: number;
}

/**
 * 10 kohm at 25 degC, B25/85 = 3977 K [ohm, 1/K].
 * @see component data sheet of a general-purpose NTC, coefficients as quoted in public firmware; checked in tests/published/thermistor.test.ts
 */
export const ntc10k: NtcCurve = { r25Ohm: 10000, a: 3.354016e-3, b: 2.56985e-4, c: 2.620131e-6, d: 6.383091e-8 };

/**
 * Temperature of a falling sensor from its resistance.
 *
 * 1 / T = a + b L + c L^2 + d L^3,  L = ln(R / R25)
 * @param ohm [ohm]; 0 or less is a short, infinite an open circuit
 * @returns [degC]; Infinity for a short, -273.15 for an open circuit
 * @see Steinhart and Hart 1968, extended by the makers of components; checked in tests/published/thermistor.test.ts
 */
export function ntcTempC(ohm: number, curve: NtcCurve): number {
	if (!(ohm > 0)) return Infinity;
	if (ohm === Infinity) return -zeroCelsiusK;
	const l = Math.log(ohm / curve.r25Ohm);
	return 1 / (curve.a + l * (curve.b + l * (curve.c + l * curve.d))) - zeroCelsiusK;
}

/**
 * Resistance of a falling sensor at a temperature: the inverse of `ntcTempC`, by Newton's method on L = ln(R / R25).
 *
 * Assumes that the curve rises in L throughout, as every real one does between -40 and 150 degC.
 * @param tempC [degC], -40 to 150
 * @returns [ohm]
 * @see Steinhart and Hart 1968, extended by the makers of components; checked in tests/published/thermistor.test.ts
 */
export function ntcOhm(tempC: number, curve: NtcCurve): number {
	const inverseK = 1 / kelvinOf(tempC);
	let l = (inverseK - curve.a) / curve.b;
	// Quadratic convergence from the straight line: four rounds reach the last digit over the range.
	for (let round = 0; round < 8; round++) {
		const excess = curve.a + l * (curve.b + l * (curve.c + l * curve.d)) - inverseK;
		const step = excess / (curve.b + l * (2 * curve.c + l * 3 * curve.d));
		l -= step;
		if (Math.abs(step) < 1e-13) break;
	}
	return curve.r25Ohm * Math.exp(l);
}

/**
 * Resistance of a falling sensor by the plain beta equation.
 *
 * R = R25 exp(B (1 / T - 1 / 298.15))
 *
 * Limit: one beta holds over one interval; over 0 to 100 degC it is up to 4 % off a real part, below 1 K in temperature.
 * @param tempC  [degC]
 * @param r25Ohm [ohm], > 0
 * @param betaK  [K], > 0
 * @returns [ohm]
 * @see IEC 60539-1, B value; checked in tests/published/thermistor.test.ts
 */
export function betaOhm(tempC: number, r25Ohm: number, betaK: number): number {
	return r25Ohm * Math.exp(betaK * (1 / kelvinOf(tempC) - 1 / kelvinOf(25)));
}

/** A resistance read at a temperature. */
export interface NtcPoint {
	readonly tempC: number;
	readonly ohm: number;
}

/**
 * The curve of a falling sensor from its resistance at 25 degC and at three other temperatures, solved exactly.
 *
 * b L + c L^2 + d L^3 = 1 / T - 1 / 298.15 at each point: b, c and d by divided differences
 * @param r25Ohm [ohm], > 0
 * @param points three, unlike each other and unlike 25 degC [degC, ohm]
 * @throws RangeError if two points, or a point and 25 degC, have the same resistance
 * @see Steinhart and Hart 1968, extended by the makers of components; checked in tests/published/thermistor.test.ts
 */
export function ntcCurveThrough(r25Ohm: number, points: readonly [NtcPoint, NtcPoint, NtcPoint]): NtcCurve {
	const a = 1 / kelvinOf(25);
	const [x1, x2, x3] = points.map(({ ohm }) => Math.log(ohm / r25Ohm)) as [number, number, number];
	const [y1, y2, y3] = points.map(({ tempC }) => 1 / kelvinOf(tempC) - a) as [number, number, number];
	if (!(x1 * x2 * x3 * (x1 - x2) * (x2 - x3) * (x3 - x1))) throw new RangeError('three resistances unlike each other and R25 are expected');
	const slope1 = y1 / x1;
	const slope2 = y2 / x2;
	const slope3 = y3 / x3;
	const bend12 = (slope2 - slope1) / (x2 - x1);
	const bend23 = (slope3 - slope2) / (x3 - x2);
	const d = (bend23 - bend12) / (x3 - x1);
	const c = bend12 - d * (x1 + x2);
	const b = slope1 - x1 * (c + d * x1);
	return { r25Ohm, a, b, c, d };
}

/**
 * Resistance of a platinum sensor.
 *
 * R = R0 (1 + 3.9083e-3 t - 5.775e-7 t^2)
 * @param tempC [degC], 0 to 850
 * @param r0Ohm resistance at 0 degC [ohm]: 100 or 1000
 * @returns [ohm]
 * @see IEC 60751; checked in tests/published/thermistor.test.ts
 */
export function platinumOhm(tempC: number, r0Ohm: number): number {
	return r0Ohm * (1 + tempC * (3.9083e-3 - 5.775e-7 * tempC));
}
