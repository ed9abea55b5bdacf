/** The rows of a job sheet: each reading taken, and in one row all that was noticed when a demand was set. */
import type { ReadingLine } from '#shared/callout/view.ts';

export interface ReadingRow {
	readonly event: number;
	readonly noticed: boolean;
	/** One reading where it was taken; all that were noticed together otherwise. */
	readonly readings: readonly ReadingLine[];
}

/** @returns the newest first; readings noticed at one event stay together, in the order they were noticed */
export function readingRows(readings: readonly ReadingLine[]): ReadingRow[] {
	const rows: { event: number; noticed: boolean; readings: ReadingLine[] }[] = [];
	for (const reading of readings) {
		const last = rows.at(-1);
		if (reading.noticed && last?.noticed && last.event === reading.event) last.readings.push(reading);
		else rows.push({ event: reading.event, noticed: reading.noticed, readings: [reading] });
	}
	return rows.reverse();
}
