/** What mark sheets call things. */
import { criteria } from '#shared/marking/mark-sheet.ts';
import { criterionNames } from '$lib/debrief/criterion-names';

export const endingWords = { 'handed-in': 'handed in', time: 'time ran out', assessor: 'closed by an assessor' } as const;

/** A criterion by its id; the mark of a drill has none. */
export function criterionName(id: string | null): string {
	const known = criteria.find((one) => one === id);
	return known ? criterionNames[known] : 'Drill';
}

/** `14 Nov 2026, 09:30` on the clock of a zone. */
export function timeText(at: Date, zone: string): string {
	return new Intl.DateTimeFormat('en-GB', {
		day: 'numeric',
		month: 'short',
		year: 'numeric',
		hour: '2-digit',
		minute: '2-digit',
		timeZone: zone
	}).format(at);
}
