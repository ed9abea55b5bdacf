/** Between what each of the 21 parameters of FSRS-6 may lie. */

/**
 * Lowest and highest value of w0 to w20.
 * @see the bounds of py-fsrs, the reference implementation in Python (source); what each stands for: tests/published/scheduler.test.ts
 */
export const parameterBounds: readonly (readonly [from: number, to: number])[] = [
	// w0..w3: the first stability [days] after a review that was lost, laboured, sound, fluent.
	[0.001, 100],
	[0.001, 100],
	[0.001, 100],
	[0.001, 100],
	// w4..w7: difficulty.
	[1, 10],
	[0.001, 4],
	[0.001, 4],
	[0.001, 0.75],
	// w8..w10: what a success adds.
	[0, 4.5],
	[0, 0.8],
	[0.001, 3.5],
	// w11..w14: what a loss leaves.
	[0.001, 5],
	[0.001, 0.25],
	[0.001, 0.9],
	[0, 4],
	// w15, w16: laboured and fluent against sound.
	[0, 1],
	[1, 6],
	// w17..w19: reviews of the same day.
	[0, 2],
	[0, 2],
	[0, 0.8],
	// w20: how the curve falls.
	[0.1, 0.8]
];

/**
 * Parameters brought within their bounds.
 * @throws RangeError unless there are 21 and each is a finite number
 */
export function withinBounds(parameters: readonly number[]): number[] {
	if (parameters.length !== parameterBounds.length || !parameters.every(Number.isFinite)) {
		throw new RangeError(`${parameterBounds.length} finite parameters are expected, not [${parameters.join(', ')}]`);
	}
	return parameters.map((value, i) => Math.min(parameterBounds[i]![1], Math.max(parameterBounds[i]![0], value)));
}
