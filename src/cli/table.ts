/** Plain tables for a terminal. */

export type Cell = string | number | boolean | null | undefined;

/** @returns lines of columns, left-aligned words and right-aligned numbers, under the given heads */
export function table(heads: readonly string[], rows: readonly (readonly Cell[])[]): string {
	if (rows.length === 0) return '(none)';
	const texts = rows.map((row) => row.map(cellText));
	const widths = heads.map((head, column) => Math.max(head.length, ...texts.map((row) => row[column]?.length ?? 0)));
	const isNumber = heads.map((_, column) => rows.every((row) => typeof row[column] === 'number' || row[column] === null));
	const line = (cells: readonly string[]): string =>
		cells
			.map((cell, column) => (isNumber[column] ? cell.padStart(widths[column]!) : cell.padEnd(widths[column]!)))
			.join('  ')
			.trimEnd();
	return [line(heads), line(widths.map((width) => '-'.repeat(width))), ...texts.map(line)].join('\n');
}

/** Numbers to at most four decimals: enough for any unit in use. */
function cellText(cell: Cell): string {
	if (cell === null || cell === undefined) return '-';
	return typeof cell === 'number' ? String(Number(cell.toFixed(4))) : String(cell);
}
