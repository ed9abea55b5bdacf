/** The fewest points of a run of values that still tell its shape. */

/** Value on the straight line between two points of `at` and `values`. */
export function between(at: readonly number[], values: readonly number[], from: number, to: number, place: number): number {
	const share = (at[place] - at[from]) / (at[to] - at[from] || 1);
	return values[from] + share * (values[to] - values[from]);
}

/**
 * Places such that straight lines between them miss no value by more than the tolerance. First and last are always among them.
 * @param at         rising
 * @param values     as many as `at`, at least one
 * @param tolerance  in the values' own unit, >= 0
 * @see Douglas & Peucker 1973
 */
export function corners(at: readonly number[], values: readonly number[], tolerance: number): number[] {
	const kept = new Set([0, at.length - 1]);
	const open: [number, number][] = [[0, at.length - 1]];
	for (let pair = open.pop(); pair; pair = open.pop()) {
		const [from, to] = pair;
		let worst = tolerance + 1e-9;
		let place = -1;
		for (let i = from + 1; i < to; i++) {
			const off = Math.abs(values[i] - between(at, values, from, to, i));
			if (off > worst) [worst, place] = [off, i];
		}
		if (place < 0) continue;
		kept.add(place);
		open.push([from, place], [place, to]);
	}
	return [...kept].sort((a, b) => a - b);
}
