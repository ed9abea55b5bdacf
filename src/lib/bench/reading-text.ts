/** How a reading is written: figures, then a small unit. */
import type { Reading } from '#shared/callout/state.ts';

const written: Readonly<Record<string, string>> = {
	degC: '°C',
	lpm: 'l/min',
	'l/min': 'l/min',
	percent: '%',
	ohm: 'Ω',
	kohm: 'kΩ',
	m3h: 'm³/h',
	'm3/h': 'm³/h',
	microamp: 'µA',
	uA: 'µA'
};

/** The unit as written in the trade, for a unit as named in the data. */
export const writtenUnit = (unit: string): string => written[unit] ?? unit;

/** A reading in few characters, for a tag on the drawing. */
export function tagText(reading: Pick<Reading, 'text' | 'unit'>, longest = 13): string {
	const whole = reading.unit ? `${reading.text} ${writtenUnit(reading.unit)}` : reading.text;
	return whole.length <= longest ? whole : `${whole.slice(0, longest - 1).trimEnd()}…`;
}
