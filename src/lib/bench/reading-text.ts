/** How a reading is written: figures, then a small unit. */
import type { Reading } from '#shared/callout/state.ts';

const written: Readonly<Record<string, string>> = { degC: '°C', ohm: 'Ω', 'm3/h': 'm³/h', uA: 'µA', ratio: '' };

/** The unit as written in the trade, for a unit as named in the data. */
export const writtenUnit = (unit: string): string => written[unit] ?? unit;

const units = '%|°C|Ω|m³/h|µA|l/min|1/min|minutes?|mins?|mbar|bar|ppm|kW|kPa|Pa|Hz|ohms?|mm|bits?|V|A|K|W|h|s';
const figureThenUnit = new RegExp(`(\\d) (?=(?:${units})(?![\\w/]))`, 'g');

/** A sentence with each figure held to its unit, so that no line breaks between them. */
export const unbroken = (says: string): string => says.replace(figureThenUnit, '$1\u00a0');

/** A sentence from the data with its units as written in the trade, each held to its figure. */
export const writtenSentence = (says: string): string => unbroken(says.replace(/(?<=\d )(degC|m3\/h|uA|ohm)\b/g, writtenUnit));

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
