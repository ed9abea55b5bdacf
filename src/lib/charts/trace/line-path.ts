/** Straight lines through points, as an SVG path. */
export function linePath(
	at: readonly number[],
	values: readonly number[],
	x: (at: number) => number,
	y: (value: number) => number
): string {
	const round = (n: number) => Math.round(n * 10) / 10;
	return at.map((second, i) => `${i === 0 ? 'M' : 'L'}${round(x(second))},${round(y(values[i]))}`).join('');
}
