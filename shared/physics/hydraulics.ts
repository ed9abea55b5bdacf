/**
 * Water through fixed resistances and pumps. A resistance r [bar/(l/min)^2] loses r q^2: turbulent flow throughout, which holds for the
 * fittings, valves and exchangers of an appliance at working flow and overstates the flow of a trickle.
 */

/**
 * Flow through a resistance under a pressure difference.
 *
 * q = sqrt(p / r), in the direction of the pressure
 * @param pressureBar difference across it [bar]; negative drives the flow backwards
 * @param r           resistance [bar/(l/min)^2], >= 0; infinite when shut
 * @returns [l/min]; 0 without pressure, infinite without resistance
 * @see any hydraulics text, square law of turbulent loss; checked in tests/published/hydraulics.test.ts
 */
export function flowLpm(pressureBar: number, r: number): number {
	if (pressureBar === 0) return 0;
	return pressureBar > 0 ? Math.sqrt(pressureBar / r) : -Math.sqrt(-pressureBar / r);
}

/**
 * Pressure that a flow loses in a resistance.
 *
 * p = r q |q|
 * @param flow [l/min]
 * @param r    resistance [bar/(l/min)^2], >= 0
 * @returns [bar]; 0 without flow, even where shut
 * @see any hydraulics text, square law of turbulent loss; checked in tests/published/hydraulics.test.ts
 */
export function lossBar(flow: number, r: number): number {
	return flow === 0 ? 0 : r * flow * Math.abs(flow);
}

/**
 * Resistance of a fitting from its flow coefficient.
 *
 * r = (0.06 / Kv)^2: Kv is the flow of water in m3/h at 1 bar, and 1 l/min is 0.06 m3/h
 * @param kv [m3/h at 1 bar], >= 0
 * @returns [bar/(l/min)^2]; infinite for 0
 * @see EN 1267 and IEC 60534-1; checked in tests/published/hydraulics.test.ts
 */
export function resistanceOfKv(kv: number): number {
	const lpmAtOneBar = kv / 0.06;
	return 1 / (lpmAtOneBar * lpmAtOneBar);
}

/**
 * Resistances one after another.
 *
 * r = r1 + r2 + ...
 * @param r resistances [bar/(l/min)^2], each >= 0
 * @returns [bar/(l/min)^2]; 0 for none
 * @see any hydraulics text: one flow, losses add; checked in tests/core/physics/hydraulics.test.ts
 */
export function seriesResistance(...r: readonly number[]): number {
	let sum = 0;
	for (const one of r) sum += one;
	return sum;
}

/**
 * Resistances side by side.
 *
 * 1 / sqrt(r) = 1 / sqrt(r1) + 1 / sqrt(r2) + ...
 * @param r resistances [bar/(l/min)^2], each >= 0; infinite for a branch that is shut
 * @returns [bar/(l/min)^2]; infinite for none, 0 where a branch has none
 * @see any hydraulics text: one pressure, flows add; checked in tests/core/physics/hydraulics.test.ts
 */
export function parallelResistance(...r: readonly number[]): number {
	let admittance = 0;
	for (const one of r) admittance += 1 / Math.sqrt(one);
	return 1 / (admittance * admittance);
}

/**
 * Resistance of a passage that is open only in part.
 *
 * r / open^2
 *
 * Assumes that the velocity in what is left open sets the loss.
 * @param r         resistance when fully open [bar/(l/min)^2], >= 0
 * @param openShare share of its area that is open [-], 0 to 1
 * @returns [bar/(l/min)^2]; infinite when shut
 * @see any hydraulics text, loss with velocity squared; checked in tests/core/physics/hydraulics.test.ts
 */
export function openedResistance(r: number, openShare: number): number {
	return openShare > 0 ? r / (openShare * openShare) : Infinity;
}

/**
 * Pressure that a centrifugal pump gives at a flow.
 *
 * p = s^2 p0 - a q^2
 *
 * Assumes a square curve, which obeys the affinity laws exactly. Limit: negative beyond the end of the curve.
 * @param shutoffBar pressure at full speed without flow [bar], >= 0
 * @param curveR     fall of the curve [bar/(l/min)^2], >= 0
 * @param speedRatio speed over full speed [-], 0 to 1
 * @param flow       [l/min], >= 0
 * @returns [bar]
 * @see affinity laws, any pump text; checked in tests/published/hydraulics.test.ts
 */
export function headBar(shutoffBar: number, curveR: number, speedRatio: number, flow: number): number {
	return speedRatio * speedRatio * shutoffBar - curveR * flow * flow;
}

/**
 * Flow at which a pump's curve meets the curve of its circuit.
 *
 * s^2 p0 - a q^2 = r q^2,  so  q = s sqrt(p0 / (a + r))
 * @param shutoffBar pressure at full speed without flow [bar], >= 0
 * @param curveR     fall of the curve [bar/(l/min)^2], >= 0; with systemR above 0
 * @param speedRatio speed over full speed [-], 0 to 1
 * @param systemR    resistance of the circuit [bar/(l/min)^2], >= 0; infinite when shut
 * @returns [l/min]
 * @see affinity laws, any pump text; checked in tests/published/hydraulics.test.ts
 */
export function pumpFlowLpm(shutoffBar: number, curveR: number, speedRatio: number, systemR: number): number {
	return speedRatio * flowLpm(shutoffBar, curveR + systemR);
}
