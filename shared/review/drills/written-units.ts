/** Units as people in the trade write them, and what turns one into another of its kind. */
import { celsiusOf, cubicFootM3, kelvinOf, kwhOfMj, lpmOfM3h, m3hOfLpm, mbarOfBar, mjOfKwh } from '#shared/quantity/units.ts';

/** What a figure can be of. A rise is told apart from a temperature: 30 K of rise is 30 degC of rise, 30 K of temperature is not. */
type Dimension =
	'power' | 'flow' | 'volume' | 'time' | 'temperature' | 'rise' | 'energy' | 'pressure' | 'resistance' | 'voltage' | 'current' | 'share';

export interface WrittenUnit {
	readonly name: string;
	readonly dimension: Dimension;
	/** How it may be written: small letters, no spaces, no full stops, 3 for a cube, `deg` for the ring, `ohm` for the omega. */
	readonly words: readonly string[];
	/** To the unit of its dimension that the rest are counted in, and back. */
	toBase(value: number): number;
	fromBase(value: number): number;
}

const spelt = (firsts: readonly string[], seconds: readonly string[]): string[] =>
	firsts.flatMap((first) => ['/', 'per', 'a', 'an', 'p'].flatMap((per) => seconds.map((second) => first + per + second)));

const litres = ['l', 'litre', 'litres', 'liter', 'liters', 'lt', 'lts', 'ltr', 'ltrs'];
const cubicMetres = ['m3', 'cum', 'cubicmetre', 'cubicmetres', 'cubicmeter', 'cubicmeters'];
const cubicFeet = ['ft3', 'cuft', 'cubicfoot', 'cubicfeet', 'cf'];
const seconds = ['s', 'sec', 'secs', 'second', 'seconds'];
const minutes = ['min', 'mins', 'minute', 'minutes', 'm'];
const hours = ['h', 'hr', 'hrs', 'hour', 'hours'];
const celsius = ['degc', 'c', 'deg', 'degs', 'degree', 'degrees', 'degreec', 'degreesc', 'celsius', 'degreescelsius', 'centigrade'];
const kelvin = ['k', 'kelvin', 'kelvins', 'degk'];

function scaled(dimension: Dimension, name: string, scale: number, words: readonly string[]): WrittenUnit {
	return { name, dimension, words, toBase: (value) => value * scale, fromBase: (value) => value / scale };
}

const same = (value: number): number => value;

/** The first of each dimension is not special; what stands first in a question is what a bare number is taken in. */
export const writtenUnits: readonly WrittenUnit[] = [
	scaled('power', 'kW', 1, ['kw', 'kws', 'kilowatt', 'kilowatts', 'kwgross', 'kwnet']),
	scaled('power', 'W', 0.001, ['w', 'watt', 'watts']),
	scaled('flow', 'm3/h', 1, spelt(cubicMetres, hours)),
	{ name: 'l/min', dimension: 'flow', words: spelt(litres, minutes), toBase: m3hOfLpm, fromBase: lpmOfM3h },
	scaled('flow', 'l/s', m3hOfLpm(60), spelt(litres, seconds)),
	scaled('flow', 'l/h', 0.001, spelt(litres, hours)),
	scaled('flow', 'ft3/h', cubicFootM3, [...spelt(cubicFeet, hours), 'cfh']),
	scaled('volume', 'l', 0.001, litres),
	scaled('volume', 'm3', 1, cubicMetres),
	scaled('volume', 'ft3', cubicFootM3, cubicFeet),
	scaled('volume', 'ml', 1e-6, ['ml', 'millilitre', 'millilitres', 'milliliter', 'milliliters']),
	scaled('time', 's', 1, seconds),
	scaled('time', 'min', 60, minutes),
	scaled('time', 'h', 3600, hours),
	{ name: 'degC', dimension: 'temperature', words: celsius, toBase: same, fromBase: same },
	{ name: 'K', dimension: 'temperature', words: kelvin, toBase: celsiusOf, fromBase: kelvinOf },
	{ name: 'K', dimension: 'rise', words: [...kelvin, ...celsius], toBase: same, fromBase: same },
	{ name: 'kWh', dimension: 'energy', words: ['kwh', 'kwhs', 'kilowatthour', 'kilowatthours'], toBase: same, fromBase: same },
	{ name: 'MJ', dimension: 'energy', words: ['mj', 'megajoule', 'megajoules'], toBase: kwhOfMj, fromBase: mjOfKwh },
	scaled('pressure', 'mbar', 1, ['mbar', 'mbars', 'mb', 'millibar', 'millibars', 'mbarg']),
	{ name: 'bar', dimension: 'pressure', words: ['bar', 'bars', 'barg'], toBase: mbarOfBar, fromBase: (mbar) => mbar / mbarOfBar(1) },
	scaled('pressure', 'kPa', 10, ['kpa', 'kilopascal', 'kilopascals']),
	scaled('pressure', 'Pa', 0.01, ['pa', 'pascal', 'pascals']),
	scaled('resistance', 'ohm', 1, ['ohm', 'ohms', 'r']),
	scaled('resistance', 'kohm', 1000, ['kohm', 'kohms', 'k', 'kilohm', 'kilohms', 'kiloohm', 'kiloohms']),
	scaled('voltage', 'V', 1, ['v', 'volt', 'volts', 'vdc', 'vac']),
	scaled('voltage', 'mV', 0.001, ['mv', 'millivolt', 'millivolts']),
	scaled('current', 'A', 1, ['a', 'amp', 'amps', 'ampere', 'amperes']),
	scaled('current', 'mA', 0.001, ['ma', 'milliamp', 'milliamps', 'milliampere', 'milliamperes']),
	scaled('share', 'ratio', 1, ['ratio', 'lambda', ':1', 'to1']),
	scaled('share', '%', 0.01, ['%', 'percent', 'pc', 'percentage']),
	scaled('share', 'ppm', 1e-6, ['ppm', 'partspermillion'])
];

/**
 * @param name      as in `writtenUnits`
 * @param dimension where one name serves two (K); the first is taken when left out
 * @throws RangeError if there is none of that name
 */
export function unitNamed(name: string, dimension?: Dimension): WrittenUnit {
	const unit = writtenUnits.find((one) => one.name === name && (dimension === undefined || one.dimension === dimension));
	if (unit === undefined) throw new RangeError(`no unit is written ${name}`);
	return unit;
}

/**
 * The unit meant by the first of those that a question names. K standing alone is a rise; beside degC it is a temperature.
 * @param names of one question, the first being what a bare number is taken in
 */
export function askedUnit(names: readonly string[]): WrittenUnit {
	const [first, ...others] = names as readonly [string, ...string[]];
	return unitNamed(first, first === 'K' && !others.includes('degC') ? 'rise' : undefined);
}

/** Every unit that a figure of the same dimension may be written in. */
export function unitsLike(unit: WrittenUnit): readonly WrittenUnit[] {
	return writtenUnits.filter((one) => one.dimension === unit.dimension);
}

/** @param value in the unit `from` @returns in the unit `to`, of the same dimension */
export function inUnit(value: number, from: WrittenUnit, to: WrittenUnit): number {
	return from === to ? value : to.fromBase(from.toBase(value));
}

/** What was written after a number, without what does not matter in it. */
export function plainWord(written: string): string {
	return written
		.normalize('NFKC')
		.toLowerCase()
		.replace(/\^/g, '')
		.replace(/[\u03c9\u2126]/g, 'ohm')
		.replace(/\u00b0/g, 'deg')
		.replace(/[\s.]/g, '');
}
