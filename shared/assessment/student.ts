/** The t distribution, for differences of means in few. */
import { z95 } from '#shared/quantity/wilson.ts';

/** Below this the series is not used: it would be off by more than 0.0001. */
export const leastFreedom = 9;

/** Of 1 / freedom, its powers in order: what is added to the normal deviate x. */
const terms = (x: number): number[] => [
	(x ** 3 + x) / 4,
	(5 * x ** 5 + 16 * x ** 3 + 3 * x) / 96,
	(3 * x ** 7 + 19 * x ** 5 + 17 * x ** 3 - 15 * x) / 384,
	(79 * x ** 9 + 776 * x ** 7 + 1482 * x ** 5 - 1920 * x ** 3 - 945 * x) / 92_160
];

/**
 * Deviate of 95 % two-sided confidence by Student's t.
 * @param freedom degrees of freedom, >= 9, broken or whole
 * @throws RangeError below
 * @see Abramowitz and Stegun 1964, Handbook of Mathematical Functions, 26.7.5 (from memory); checked in tests/published/student.test.ts
 */
export function t95(freedom: number): number {
	if (!(freedom >= leastFreedom)) throw new RangeError(`at least ${leastFreedom} degrees of freedom are expected, not ${freedom}`);
	return terms(z95).reduce((t, term, power) => t + term / freedom ** (power + 1), z95);
}

/**
 * Degrees of freedom of the difference of two means whose deviations need not be alike; no fewer than those of the smaller group.
 * @param sdA, sdB standard deviations, not both 0
 * @param nA, nB   numbers, >= 2
 * @see Welch 1947, Biometrika 34, 28-35 (from memory); checked in tests/published/student.test.ts
 */
export function welchFreedom(sdA: number, nA: number, sdB: number, nB: number): number {
	const [a, b] = [sdA ** 2 / nA, sdB ** 2 / nB];
	// Arithmetic may leave it a hair below its least.
	return Math.max(Math.min(nA, nB) - 1, (a + b) ** 2 / (a ** 2 / (nA - 1) + b ** 2 / (nB - 1)));
}
