/** A line that holds each value until the next, and the area under it, in a box of the given size; values run from 0 to 1. */
export interface StepShape {
	readonly line: string;
	readonly area: string;
}

/**
 * @param at      where each value begins, rising, in the same measure as `end`
 * @param values  as many as `at`, 0 to 1
 * @param end     where the last value ends, at least the last of `at`
 */
export function stepShape(at: readonly number[], values: readonly number[], end: number, width: number, height: number): StepShape {
	if (at.length === 0) return { line: '', area: '' };
	const x = (n: number) => round((n / Math.max(end, 1e-9)) * width);
	const y = (n: number) => round(height - n * height);
	let line = `M${x(at[0])},${y(values[0])}`;
	for (let i = 1; i < at.length; i++) line += `H${x(at[i])}V${y(values[i])}`;
	line += `H${round(width)}`;
	return { line, area: `${line}V${round(height)}H${x(at[0])}Z` };
}

const round = (n: number) => Math.round(n * 100) / 100;
