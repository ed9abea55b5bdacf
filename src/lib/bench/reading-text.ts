/** How a reading is written on a tag: figures, then a small unit. */
import type { Reading } from '#shared/callout/state.ts';
import { writtenUnit } from '$lib/ui/written';

/** How wide a letter of the unit is on a tag, by one of its figure. */
export const unitShare = 0.8;

/** What a tag shows: the unit in smaller letters where figure and unit have room together. @returns its width, in letters of the figure */
export function tagParts(reading: Pick<Reading, 'text' | 'unit'>, longest: number): { text: string; unit: string; letters: number } {
	const unit = writtenUnit(reading.unit);
	const letters = reading.text.length + (unit ? unitShare * (unit.length + 1) : 0);
	if (unit && letters <= longest) return { text: reading.text, unit, letters };
	const text = tagText(reading, longest);
	return { text, unit: '', letters: text.length };
}

/** A reading in few characters, for a tag on the drawing: without its unit, and then cut, where it is too long. */
export function tagText(reading: Pick<Reading, 'text' | 'unit'>, longest = 9): string {
	const whole = reading.unit ? `${reading.text} ${writtenUnit(reading.unit)}` : reading.text;
	if (whole.length <= longest) return whole;
	return reading.text.length <= longest ? reading.text : `${reading.text.slice(0, longest - 1).replace(/[\s,]+$/, '')}…`;
}
