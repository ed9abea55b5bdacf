/** The rows of a job sheet: each reading taken, in the order of time or by what it concerns. */
import type { ReadingLine } from '#shared/callout/view.ts';
import { areas } from '#shared/scenario/areas.ts';
import type { SheetOrder } from '$lib/ui/settings';

export interface ReadingRow {
	readonly event: number;
	/** All that was noticed when a demand was set, in one row. */
	readonly noticed: boolean;
	/** One reading where it was taken; all that were noticed together otherwise. */
	readonly readings: readonly ReadingLine[];
}

export interface ReadingGroup {
	/** What the readings concern; null where the group is all of them. */
	readonly name: string | null;
	readonly rows: readonly ReadingRow[];
}

/** @returns one group, the newest first; or one for each fault area that has readings, in the order of the areas, each the newest first */
export function readingGroups(readings: readonly ReadingLine[], order: SheetOrder): ReadingGroup[] {
	if (order === 'time') return readings.length > 0 ? [{ name: null, rows: readingRows(readings) }] : [];
	return Object.entries(areas).flatMap(([area, name]) => {
		const rows = readings
			.filter((reading) => reading.area === area)
			.map((reading) => ({ event: reading.event, noticed: false, readings: [reading] }))
			.reverse();
		return rows.length > 0 ? [{ name, rows }] : [];
	});
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
