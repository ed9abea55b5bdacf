import type { JudgeRow } from '$lib/server/papers/standard';

export const judgeField = (row: number): string => `judge/${row}`;
export const expectedField = (row: number, slot: number): string => `expected/${row}/${slot}`;

/** Rows that the form has at most: as many judges as there may be, and some left empty. */
const mostRows = 24;

/** The rows of the table as they were written. @param slots  places of the paper */
export function readJudges(fields: Readonly<Record<string, string>>, slots: number): JudgeRow[] {
	const rows = Array.from({ length: mostRows }, (_, row) => row).filter((row) => fields[judgeField(row)] !== undefined);
	return rows.map((row) => ({
		judge: fields[judgeField(row)]!,
		expected: Array.from({ length: slots }, (_, slot) => fields[expectedField(row, slot)] ?? '')
	}));
}
