import type { Criterion } from '#shared/marking/mark-sheet.ts';

/** What each criterion is called on a bill. */
export const criterionNames: Readonly<Record<Criterion, string>> = {
	safety: 'Safety',
	parts: 'Parts',
	economy: 'Economy',
	evidence: 'Reading the evidence',
	finish: 'Finish'
};

/** Marks as written: whole, or to a tenth. */
export const marksText = (marks: number): string => (Number.isInteger(marks) ? `${marks}` : marks.toFixed(1));
