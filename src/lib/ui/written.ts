/** How units and sentences of the data are written on a page. */

const written: Readonly<Record<string, string>> = {
	degC: '°C',
	ohm: 'Ω',
	kohm: 'kΩ',
	m3: 'm³',
	'm3/h': 'm³/h',
	ft3: 'ft³',
	'ft3/h': 'ft³/h',
	'MJ/m3': 'MJ/m³',
	uA: 'µA',
	'1/min': 'rev/min',
	ratio: ''
};

/** The unit as written in the trade, for a unit as named in the data. */
export const writtenUnit = (unit: string): string => written[unit] ?? unit;

const units =
	'%|°C|Ω|kΩ|m³/h|m³|ft³/h|ft³|MJ/m³|kWh|MJ|µA|mA|l/min|1/min|rev/min|minutes?|mins?|mbar|bar|ppm|kW|kPa|Pa|Hz|ohms?|mm|bits?|V|A|K|W|h|l|s';
const figureThenUnit = new RegExp(`(\\d) (?=(?:${units})(?![\\w/]))`, 'g');

/** A sentence with each figure held to its unit, so that no line breaks between them. */
export const unbroken = (says: string): string => says.replace(figureThenUnit, '$1\u00a0');

// What is also a word, or may be part of a sum, is a unit after a figure alone.
const namedUnit = /\b(degC|uA|kohm|m3\/h|MJ\/m3|m3|ft3\/h|ft3)(?!\w)|(?<=\d )(ohm|1\/min)\b/g;

/** More figures behind the point than anybody writes or reads off: what arithmetic left behind. */
const leftBehind = /\d+\.\d{11,}/g;

/** What was written as an answer, as it was written; a figure with what arithmetic left behind in it, without that. */
export const asWritten = (says: string): string => says.replace(leftBehind, (figure) => String(Number(Number(figure).toPrecision(10))));

/** A sentence from the data with its units as written in the trade, each held to its figure. */
export const writtenSentence = (says: string): string => unbroken(says.replace(namedUnit, writtenUnit));
