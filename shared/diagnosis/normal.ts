/**
 * Standard normal distribution function, P(Z <= z).
 *
 * erfc by the rational approximation with exponential tail; absolute error under 1.5e-7, which is far below any chance that a belief
 * rests on.
 * @see Abramowitz & Stegun, Handbook of Mathematical Functions, 7.1.26 (from memory; held against numerical integration in
 *      tests/core/diagnosis/normal.test.ts)
 */
export function normalBelow(z: number): number {
	const x = Math.abs(z) * Math.SQRT1_2;
	const t = 1 / (1 + 0.3275911 * x);
	const tail = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) * Math.exp(-x * x) * 0.5;
	return z > 0 ? 1 - tail : tail;
}

const rootTwoPi = Math.sqrt(2 * Math.PI);

/** Normal density at `x`. @param sd standard deviation, > 0 */
export function normalDensity(x: number, mean: number, sd: number): number {
	const z = (x - mean) / sd;
	return Math.exp(-0.5 * z * z) / (sd * rootTwoPi);
}
