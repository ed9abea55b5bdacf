/** Reading a figure that somebody wrote: a number, decimal comma or point, thousands, and a unit if there is one. */
import { anyOf } from '#shared/quantity/any-of.ts';
import { askedUnit, inUnit, plainWord, unitsLike, writtenUnits, type WrittenUnit } from './written-units.ts';

export interface Figure {
	/** As it was written. */
	readonly number: number;
	readonly unit: WrittenUnit;
}

/** What a text may mean: one figure, or two where a comma before three figures may part thousands or decimals. */
export type ReadFigure = { readonly figures: readonly Figure[] } | { readonly refused: string };

const longest = 60;
const number = String.raw`(?:\d[\d.,' \u00a0\u202f\u2019]*|[.,]\d+)`;
const power = String.raw`(?:e[+-]?\d+|\s*[x×*]\s*10\s*\^\s*[+-]?\d+)?`;
const whole = new RegExp(`^([+-]?)\\s*(${number})(${power})\\s*(.*)$`, 'i');

/**
 * Reads a written figure.
 *
 * A word before it such as `about` is passed over. A bare number is in the first unit asked for; any unit of its dimension is taken.
 * Resistances may be written as on a drawing (4k7), times in parts (12 min 30 s). One comma before exactly three figures, as in 2,784,
 * may be either: both are returned, and whoever judges takes the one nearer the answer.
 * @param units as the question names them, the first being that of a bare number
 * @returns the figure, or why there is none, with what is expected
 */
export function readFigure(written: string, units: readonly string[]): ReadFigure {
	const first = askedUnit(units);
	const expected = `A figure ${units[0] === 'ratio' ? 'without a unit' : `in ${anyOf(units)}`} is expected`;
	if (written.length > longest) return { refused: `${expected}; this is longer than any.` };
	const text = readable(written)
		.trim()
		.replace(/^(=|~|≈|about|approximately|approx\.?|roughly|ca\.?)\s*/i, '')
		.replace(/[\u2212\u2013]/g, '-');
	if (!/\d/.test(text)) return { refused: `${expected}; there is no number in this.` };

	const figures =
		first.dimension === 'time' ? timeInParts(text, first) : first.dimension === 'resistance' ? asOnADrawing(text, first) : null;
	if (figures !== null) return { figures };

	const found = whole.exec(text);
	const numbers = found === null ? [] : numbersOf(found[2] as string);
	if (found === null || numbers.length === 0) return { refused: `${expected}, as one number.` };
	const unit = unitOf(found[4] as string, first);
	if (typeof unit === 'string') return { refused: `${unit} ${expected}.` };
	const sign = found[1] === '-' ? -1 : 1;
	const figuresRead = numbers.map((one) => ({ number: one === 0 ? 0 : sign * one * tenTo(found[3] as string), unit }));
	const beyond = numbers.map((one, at) => (one === 0 ? null : beyondAny(figuresRead[at]!, first))).find((says) => says !== null);
	return beyond === undefined ? { figures: figuresRead } : { refused: `${beyond} ${expected}.` };
}

/** Figures and letters of another width as plain ones. Raised ones and fractions stay what they are: 10\u00b3 is not 103. */
function readable(written: string): string {
	return written.replace(/[^\p{No}]+/gu, (run) => run.normalize('NFKC'));
}

/** Why a figure whose digits are not all 0 is beyond what can be reckoned with; null where it is not. */
function beyondAny({ number, unit }: Figure, first: WrittenUnit): string | null {
	const reckoned = [number, inUnit(number, unit, first)];
	if (reckoned.some((one) => !Number.isFinite(one))) return 'This is too large to be read.';
	return number === 0 ? 'This is too small to be read.' : null;
}

/** What a unit's text means, or a sentence on why it cannot be meant. */
function unitOf(written: string, first: WrittenUnit): WrittenUnit | string {
	const word = plainWord(written);
	if (word === '') return first;
	const meant = unitsLike(first).find((unit) => unit.words.includes(word));
	if (meant !== undefined) return meant;
	const shown = written.trim();
	if (/^[-–/:]?\s*\d/.test(shown)) return 'This holds more than one number.';
	const other = writtenUnits.find((unit) => unit.words.includes(word));
	return other === undefined
		? `No unit written '${shown}' is known here.`
		: `A figure in ${shown} is of another kind (${other.dimension}).`;
}

/** What a number's text may mean; none where its parts do not make a number. */
function numbersOf(written: string): number[] {
	let text = written.trim();
	if (/[' \u00a0\u202f\u2019]/.test(text)) {
		if (!/^\d{1,3}([' \u00a0\u202f\u2019]\d{3})+([.,]\d*)?$/.test(text)) return [];
		return [Number(text.replace(/[^\d.,]/g, '').replace(',', '.'))];
	}
	if (/^\d{1,3}(,\d{3})+\.\d*$/.test(text) || /^\d{1,3}(,\d{3}){2,}$/.test(text)) text = text.replaceAll(',', '');
	else if (/^\d{1,3}(\.\d{3})+,\d*$/.test(text) || /^\d{1,3}(\.\d{3}){2,}$/.test(text)) text = text.replaceAll('.', '').replace(',', '.');
	else if (/^[1-9]\d{0,2},\d{3}$/.test(text)) return [Number(text.replace(',', '')), Number(text.replace(',', '.'))];
	else text = text.replace(',', '.');
	return /^(\d+\.?\d*|\.\d+)$/.test(text) ? [Number(text)] : [];
}

function tenTo(written: string): number {
	const exponent = /[+-]?\d+$/.exec(written.replace(/.*10\s*\^\s*/, ''));
	return exponent === null ? 1 : 10 ** Number(exponent[0]);
}

/** Hours, minutes and seconds one after another; bare seconds may end it. Null where it is not so written. */
function timeInParts(text: string, first: WrittenUnit): Figure[] | null {
	const parts = /^(\d+)\s*([a-z]+)\.?,?\s*(?:and\s+)?(\d+(?:[.,]\d+)?)\s*([a-z]*)\.?$/i.exec(text);
	if (parts === null) return null;
	const units = unitsLike(first);
	const larger = units.find((unit) => unit.words.includes(plainWord(parts[2] as string)));
	const at = larger === undefined ? -1 : units.indexOf(larger);
	const word = plainWord(parts[4] as string);
	const smaller = units[at - 1];
	if (larger === undefined || smaller === undefined || (word !== '' && !smaller.words.includes(word))) return null;
	const whole = inUnit(Number(parts[1]), larger, first) + inUnit(Number((parts[3] as string).replace(',', '.')), smaller, first);
	return [{ number: whole, unit: first }];
}

/** 4k7 for 4.7 kohm, 4R7 for 4.7 ohm. Null where it is not so written. */
function asOnADrawing(text: string, first: WrittenUnit): Figure[] | null {
	const parts = /^(\d+)([kr])(\d+)$/i.exec(text.replace(/\s*(ohms?|\u03a9|\u2126)$/i, ''));
	if (parts === null) return null;
	const unit = unitsLike(first).find((one) => one.words.includes((parts[2] as string).toLowerCase()));
	return unit === undefined ? null : [{ number: Number(`${parts[1]}.${parts[3]}`), unit }];
}
