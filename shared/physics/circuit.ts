/** Resistances and the mains: what checks with a meter need. */

/**
 * Resistances side by side.
 *
 * 1 / R = 1 / R1 + 1 / R2 + ...
 * @param ohm each >= 0 [ohm]; infinite for an open branch
 * @returns [ohm]; infinite for none, 0 where a branch is a short
 * @see Ohm's law and Kirchhoff's laws, any electricity text; checked in tests/core/physics/circuit.test.ts
 */
export function parallelOhm(...ohm: readonly number[]): number {
	let conductance = 0;
	for (const one of ohm) conductance += 1 / one;
	return 1 / conductance;
}

/**
 * Voltage across the lower of two resistances in series: a sensor or a dial as the control board reads it.
 *
 * V = Vs Rl / (Ru + Rl)
 *
 * Assumes that what reads the voltage draws no current.
 * @param supplyV  [V]
 * @param upperOhm [ohm], >= 0
 * @param lowerOhm [ohm], >= 0; infinite for an open circuit. Not both 0, and not both infinite
 * @returns [V]; the supply when the lower is open
 * @see Ohm's law and Kirchhoff's laws, any electricity text; checked in tests/core/physics/circuit.test.ts
 */
export function dividerV(supplyV: number, upperOhm: number, lowerOhm: number): number {
	return lowerOhm === Infinity ? supplyV : (supplyV * lowerOhm) / (upperOhm + lowerOhm);
}

/**
 * Resistance of a copper winding at a temperature.
 *
 * R = R20 (1 + 0.00393 (t - 20))
 * @param ohm20 at 20 degC [ohm], >= 0   @param tempC [degC], -20 to 150
 * @returns [ohm]
 * @see IEC 60028, coefficient of annealed copper; checked in tests/published/circuit.test.ts
 */
export function windingOhm(ohm20: number, tempC: number): number {
	return ohm20 * (1 + 0.00393 * (tempC - 20));
}
