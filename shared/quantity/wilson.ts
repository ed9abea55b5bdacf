/** How far a share can be trusted that was counted in few cases. */

export interface Share {
	/** How often it was so, of so many. */
	readonly count: number;
	readonly of: number;
	/** Null where there are none. */
	readonly share: number | null;
	/** Bounds between which the true share lies with 95 % confidence; 0 to 1 where there are none. */
	readonly low: number;
	readonly high: number;
}

/** Standard normal deviate of 95 % two-sided confidence. */
export const z95 = 1.959964;

/**
 * A share with its interval by Wilson's score.
 *
 * centre = (p + z^2 / 2n) / (1 + z^2 / n),  half = z sqrt(p (1 - p) / n + z^2 / 4n^2) / (1 + z^2 / n)
 * @param count 0 to `of`; a sum of marks in part counts as so many cases, and the interval is then wider than it need be
 * @throws RangeError for a count outside of it
 * @see Wilson 1927, Journal of the American Statistical Association 22; checked in tests/published/wilson.test.ts
 */
export function shareOf(count: number, of: number): Share {
	if (!(count >= 0 && count <= of)) throw new RangeError(`a count from 0 to ${of} is expected, not ${count}`);
	if (of === 0) return { count, of, share: null, low: 0, high: 1 };
	const share = count / of;
	const spread = 1 + z95 ** 2 / of;
	const centre = (share + z95 ** 2 / (2 * of)) / spread;
	const half = (z95 * Math.sqrt((share * (1 - share)) / of + z95 ** 2 / (4 * of ** 2))) / spread;
	// Arithmetic may leave a bound a hair on the wrong side of a share of 0 or 1.
	return { count, of, share, low: Math.min(share, Math.max(0, centre - half)), high: Math.max(share, Math.min(1, centre + half)) };
}
