/** A figure, or why there is none: what cannot be said is said to be so. */
export type Figure<T> = { readonly value: T; readonly why: null } | { readonly value: null; readonly why: string };

export const figure = <T>(value: T): Figure<T> => ({ value, why: null });
export const none = (why: string): Figure<never> => ({ value: null, why });

/** Bounds between which the true value lies with 95 % confidence, where what the interval supposes holds. */
export interface Interval {
	readonly low: number;
	readonly high: number;
}

/** Differences below this are those of arithmetic, not of marks. */
export const leastDifference = 1e-9;

/** Whether all are the same. True of none and of one. */
export const isLevel = (values: readonly number[]): boolean => values.every((value) => Math.abs(value - values[0]) < leastDifference);
