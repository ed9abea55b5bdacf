/** Ends and marks of an axis, at round numbers. */

export interface Axis {
	readonly from: number;
	readonly to: number;
	/** Rising, from `from` to `to`, both among them. */
	readonly marks: readonly number[];
}

const mostIntervals = 4;

/**
 * An axis that holds all the values.
 * @param unit '%' gives 0 to 100 and more only where a value is outside it
 */
export function valueAxis(values: readonly number[], unit: string): Axis {
	const low = Math.min(...values, ...(unit === '%' ? [0] : []));
	const high = Math.max(...values, ...(unit === '%' ? [100] : []));
	// What holds still gets a little room either side, so that it lies in the middle.
	const room = high > low ? 0 : Math.max(1, Math.abs(high) / 10);
	const step = roundStep((high - low + 2 * room) / mostIntervals);
	const from = Math.floor((low - room) / step + 1e-9) * step;
	const to = Math.ceil((high + room) / step - 1e-9) * step;
	return { from, to, marks: marksBetween(from, to, step) };
}

const timeSteps = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 1200, 3600];

/** Marks from 0 up to the end of a run. @param endS [s], > 0 */
export function timeMarks(endS: number): readonly number[] {
	const step = timeSteps.find((each) => endS / each <= mostIntervals) ?? 3600;
	return marksBetween(0, Math.floor(endS / step + 1e-9) * step, step);
}

/** 1, 2, 2.5 or 5 times a power of ten, at least `wanted`. */
function roundStep(wanted: number): number {
	const power = 10 ** Math.floor(Math.log10(wanted));
	const times = [1, 2, 2.5, 5, 10].find((each) => each * power >= wanted - 1e-9 * power) ?? 10;
	return times * power;
}

function marksBetween(from: number, to: number, step: number): number[] {
	const count = Math.round((to - from) / step);
	return Array.from({ length: count + 1 }, (_, i) => Number((from + i * step).toPrecision(10)));
}
