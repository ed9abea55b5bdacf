/** Carries lumped temperatures on in time. */

/**
 * Classical Runge-Kutta of order 4 on a state that is changed in place.
 *
 * y' = y + h (k1 + 2 k2 + 2 k3 + k4) / 6
 *
 * Exact enough at half a second where the fastest lump answers within a second or more; tried by halving the step in tests/core/appliance.
 * @param state what is carried on
 * @param slope writes dy/dt of `y` into `out` [1/s]
 * @returns a function that goes `steps` steps of `stepS` [s]
 * @see any text on numerical methods
 */
export function rungeKutta(
	state: Float64Array,
	slope: (y: Float64Array, out: Float64Array) => void
): (stepS: number, steps: number) => void {
	const lumps = state.length;
	const k1 = new Float64Array(lumps);
	const k2 = new Float64Array(lumps);
	const k3 = new Float64Array(lumps);
	const k4 = new Float64Array(lumps);
	const middle = new Float64Array(lumps);

	function between(k: Float64Array, share: number): Float64Array {
		for (let i = 0; i < lumps; i += 1) middle[i] = state[i] + share * k[i];
		return middle;
	}

	return (stepS, steps) => {
		for (let n = 0; n < steps; n += 1) {
			slope(state, k1);
			slope(between(k1, stepS / 2), k2);
			slope(between(k2, stepS / 2), k3);
			slope(between(k3, stepS), k4);
			for (let i = 0; i < lumps; i += 1) state[i] += (stepS / 6) * (k1[i] + 2 * k2[i] + 2 * k3[i] + k4[i]);
		}
	};
}
