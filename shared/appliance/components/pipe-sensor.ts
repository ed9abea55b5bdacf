/** A thermistor that a board reads: what the board makes of it, and what a meter shows across it. */
import { ntc10k, ntcOhm, ntcTempC } from '#shared/physics/thermistor.ts';

/** Knots of the sensing curve [degC]: straight lines between them stay within 0.02 K of it. */
const KNOTS = { fromC: -20, stepK: 4, count: 42 };

/**
 * What the board makes of a thermistor: a resistance that is off by a factor, read through the sound curve, becomes a wrong temperature.
 * Laid out once for a run, since the curve and its inverse are too dear for every tick.
 * @see shared/physics/thermistor.ts; held to it in tests/core/appliance/sensing.test.ts
 */
export function sensing(ohmFactor: number): (tempC: number) => number {
	if (ohmFactor === 1) return (tempC) => tempC;
	const { fromC, stepK, count } = KNOTS;
	const knots = Float64Array.from({ length: count }, (_, i) => ntcTempC(ohmFactor * ntcOhm(fromC + i * stepK, ntc10k), ntc10k));
	return (tempC) => {
		const at = (tempC - fromC) / stepK;
		const i = Math.max(0, Math.min(count - 2, Math.floor(at)));
		return knots[i] + (at - i) * (knots[i + 1] - knots[i]);
	};
}

/** Across the sensor, unplugged [ohm]. @param ohmFactor over that of a sound one  @param joined 1 whole, 0 open circuit */
export function sensorOhm(tempC: number, ohmFactor: number, joined: number): number {
	return joined > 0 ? ohmFactor * ntcOhm(tempC, ntc10k) : Infinity;
}
