/** Heat exchangers between two streams. */

/**
 * Share of the greatest possible heat that a counterflow exchanger passes.
 *
 * e = (1 - exp(-N (1 - c))) / (1 - c exp(-N (1 - c)));  e = N / (1 + N) at c = 1;  e = 1 - exp(-N) at c = 0
 *
 * Assumes constant properties, no loss to the room, no conduction along the plates.
 * @param ntu   number of transfer units UA / Cmin [-], >= 0, may be infinite
 * @param ratio Cmin / Cmax [-], 0 to 1
 * @returns effectiveness [-], 0 to 1
 * @throws RangeError if ntu or ratio is out of range
 * @see Incropera et al., Fundamentals of Heat and Mass Transfer, ch. 11; checked in tests/published/exchanger.test.ts
 */
export function counterflowEffectiveness(ntu: number, ratio: number): number {
	if (!(ntu >= 0)) throw new RangeError(`transfer units must be 0 or more, not ${ntu}`);
	if (!(ratio >= 0 && ratio <= 1)) throw new RangeError(`the ratio of capacities must be from 0 to 1, not ${ratio}`);
	if (ratio === 1) return ntu === Infinity ? 1 : ntu / (1 + ntu);
	// expm1 keeps the digits that 1 - exp would lose as the ratio nears 1.
	const lost = -Math.expm1(-ntu * (1 - ratio));
	return lost / (1 - ratio + ratio * lost);
}

/**
 * Heat passed by a counterflow exchanger, by effectiveness and number of transfer units.
 *
 * Q = e Cmin (Thot - Tcold),  N = UA / Cmin,  c = Cmin / Cmax
 *
 * Assumes constant properties and no loss to the room. Negative where the stream called hot enters the colder.
 * @param hotKwPerK  capacity of the hot stream [kW/K], >= 0
 * @param hotTempC   its temperature at entry [degC]
 * @param coldKwPerK capacity of the cold stream [kW/K], >= 0
 * @param coldTempC  its temperature at entry [degC]
 * @param uaKwPerK   conductance [kW/K], >= 0
 * @returns heat from hot to cold [kW]; 0 when either stream stands still
 * @throws RangeError if uaKwPerK < 0
 * @see Incropera et al., Fundamentals of Heat and Mass Transfer, ch. 11; checked in tests/published/exchanger.test.ts
 */
export function counterflowHeatKw(hotKwPerK: number, hotTempC: number, coldKwPerK: number, coldTempC: number, uaKwPerK: number): number {
	if (!(uaKwPerK >= 0)) throw new RangeError(`conductance must be 0 or more, not ${uaKwPerK}`);
	const least = Math.min(hotKwPerK, coldKwPerK);
	if (!(least > 0)) return 0;
	const effectiveness = counterflowEffectiveness(uaKwPerK / least, least / Math.max(hotKwPerK, coldKwPerK));
	return effectiveness * least * (hotTempC - coldTempC);
}

/** A plate exchanger and its state. */
export interface Plate {
	/** Conductance when clean and open, both flows nominal [kW/K], > 0. */
	readonly cleanKwPerK: number;
	/** Share of the clean resistance that is the hot side's film [-]; with `coldShare` at most 1. What is left is the wall. */
	readonly hotShare: number;
	/** Share of the clean resistance that is the cold side's film [-]. */
	readonly coldShare: number;
	/** Flow over nominal flow on the hot side [-], >= 0. */
	readonly hotFlowRatio: number;
	/** Flow over nominal flow on the cold side [-], >= 0. */
	readonly coldFlowRatio: number;
	/** Resistance of the deposit [m2 K/W], >= 0. */
	readonly foulingM2KPerW: number;
	/** Plate area when open [m2], > 0. */
	readonly areaM2: number;
	/** Share of the passages that is open [-], 0 to 1. */
	readonly openShare: number;
}

/**
 * Conductance of a plate exchanger, as it answers to flow, deposit and blockage.
 *
 * 1 / UA = ((sh rh^-0.8 + sc rc^-0.8 + 1 - sh - sc) / UAclean + 1000 Rf / A) / open
 *
 * Each film coefficient varies with flow to the power 0.8 about its nominal value; films, wall and deposit lie in series. Blockage takes
 * area away. Assumes that the deposit is even and that what flows faster through the open passages gains nothing, since the flow there
 * is badly spread. Limit: 0 when either side stands still or nothing is open.
 * @returns [kW/K]
 * @see plate exchanger of the Buildings library of Modelica models, for the exponent; checked in tests/published/exchanger.test.ts
 */
export function plateConductance(plate: Plate): number {
	const { cleanKwPerK, hotShare, coldShare, hotFlowRatio, coldFlowRatio, foulingM2KPerW, areaM2, openShare } = plate;
	if (!(hotFlowRatio > 0 && coldFlowRatio > 0 && openShare > 0)) return 0;
	const films = hotShare * hotFlowRatio ** -0.8 + coldShare * coldFlowRatio ** -0.8;
	const clean = (films + (1 - hotShare - coldShare)) / cleanKwPerK;
	return openShare / (clean + (1000 * foulingM2KPerW) / areaM2);
}

/**
 * Logarithmic mean of the temperature differences at the two ends of an exchanger.
 *
 * D = (d1 - d2) / ln(d1 / d2);  D = d1 where they are equal
 * @param oneEndK   difference at one end [K], > 0
 * @param otherEndK difference at the other [K], > 0
 * @returns [K]
 * @throws RangeError if either difference is not above 0
 * @see Incropera et al., Fundamentals of Heat and Mass Transfer, ch. 11; checked in tests/published/exchanger.test.ts
 */
export function logMeanDifferenceK(oneEndK: number, otherEndK: number): number {
	if (!(oneEndK > 0 && otherEndK > 0)) throw new RangeError(`differences must be above 0, not ${oneEndK} and ${otherEndK}`);
	const excess = (oneEndK - otherEndK) / otherEndK;
	// Below this the quotient loses digits; the mean of the ends is then right to 1e-13.
	if (Math.abs(excess) < 1e-6) return (oneEndK + otherEndK) / 2;
	return (oneEndK - otherEndK) / Math.log1p(excess);
}
