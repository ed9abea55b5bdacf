/**
 * One sum with its figures, and what counts as right.
 *
 * The rule is our own. An answer is **right** within what the rounding of the givens can move it (each by half its step, all moves added
 * up), and never less than half a per cent, which is what three figures can be off. It is **nearly right** within three times that, or
 * when it is the answer rounded to two figures. Anything else is wrong. Figures are drawn again until every misconception's result lies
 * clear of all that, of the other misconceptions' results, until no given can be copied as the answer, and until the answer does not lie
 * so near the middle between two figures that the rounding of a step could tip it.
 */
import { decimalsOf, formatNumber } from '#shared/quantity/format.ts';
import { chance } from '#shared/quantity/random.ts';
import { askedUnit, inUnit, unitsLike, type WrittenUnit } from '../written-units.ts';
import { answerFigures, type Misconception, type Sum } from './sum.ts';

const leastShare = 0.005;
const nearlyTimes = 3;
const draws = 500;
/** Steps of six figures move an answer by less than this share of it, whatever they come to together. */
const stepsMove = 2e-5;

export interface Problem {
	readonly sum: Sum;
	readonly unit: WrittenUnit;
	readonly given: Readonly<Record<string, number>>;
	/** [unit] */
	readonly answer: number;
	/** Farthest from the answer that is right, and nearly right [unit]. */
	readonly rightWithin: number;
	readonly nearlyWithin: number;
	readonly misconceptions: readonly { readonly says: string; readonly value: number; readonly within: number }[];
}

/**
 * @param seed the same seed gives the same figures
 * @throws RangeError if no draw keeps misconceptions clear of the answer: the sum's ranges are then at fault
 */
export function problemOf(sum: Sum, seed: number): Problem {
	for (let draw = 0; draw < draws; draw++) {
		const problem = withFigures(sum, sum.draw(chance(seed, sum.id, draw)));
		if (isClear(problem)) return problem;
	}
	throw new RangeError(`${sum.id}: no figures in ${draws} draws keep its misconceptions apart`);
}

/**
 * The sum with these givens, rounded to their steps.
 * @param drawn by the name of each given, in the unit that it is shown in
 */
export function withFigures(sum: Sum, drawn: Readonly<Record<string, number>>): Problem {
	const given: Record<string, number> = {};
	for (const [key, { step }] of Object.entries(sum.given)) {
		given[key] = Number(formatNumber(Math.round((drawn[key] as number) / step) * step, decimalsOf(step)));
	}
	const unit = askedUnit(sum.units);
	const answer = sum.solve(given);
	const rightWithin = Math.max(leastShare * Math.abs(answer), sum.atLeast ?? 0, movedByRounding(sum, given, answer));
	const misconceptions = sum.misconceptions.map(({ says, gives }: Misconception) => {
		const value = gives(given);
		// Worked from the same givens, so as uncertain as the answer: by share, or by as much where shares mean nothing.
		const within = sum.atLeast === undefined ? (rightWithin / Math.abs(answer)) * Math.abs(value) : rightWithin;
		return { says, value, within };
	});
	return { sum, unit, given, answer, rightWithin, nearlyWithin: nearlyTimes * rightWithin, misconceptions };
}

/** How far the answer can lie off for the rounding of the givens alone. */
function movedByRounding(sum: Sum, given: Readonly<Record<string, number>>, answer: number): number {
	let moved = 0;
	for (const [key, { step, exact }] of Object.entries(sum.given)) {
		if (exact) continue;
		const at = (value: number) => Math.abs(sum.solve({ ...given, [key]: value }) - answer);
		const value = given[key] as number;
		moved += Math.max(at(value - step / 2), at(value + step / 2));
	}
	return moved;
}

/** The answer rounded to two figures in a unit; null for temperatures, where that depends on where the scale begins. */
export function coarsely({ answer, unit }: Problem, written: WrittenUnit): number | null {
	return unit.dimension === 'temperature' ? null : Number(inUnit(answer, unit, written).toPrecision(2));
}

/** A figure with the unit of the answer. */
export function shown(value: number, unit: WrittenUnit): string {
	return unit.name === 'ratio' ? answerFigures(value) : `${answerFigures(value)} ${unit.name}`;
}

function isClear(problem: Problem): boolean {
	const { sum, unit, given, answer, rightWithin, nearlyWithin, misconceptions } = problem;
	if (!Number.isFinite(answer) || answer === 0 || !misconceptions.every(({ value }) => Number.isFinite(value))) return false;
	if (!isWrittenOneWay(answer)) return false;
	const units = unitsLike(unit);
	const coarse = units.flatMap((written) => {
		const rounded = coarsely(problem, written);
		return rounded === null ? [] : [inUnit(rounded, written, unit)];
	});
	const isApart = misconceptions.every(({ value, within }, index) => {
		if (Math.abs(value - answer) <= nearlyWithin + within) return false;
		if (coarse.some((rounded) => Math.abs(rounded - value) <= within)) return false;
		return misconceptions.slice(0, index).every((other) => Math.abs(other.value - value) > within + other.within);
	});
	if (!isApart) return false;
	const shownAnswers = new Set([answer, ...misconceptions.slice(0, 3).map(({ value }) => value)].map((value) => shown(value, unit)));
	if (sum.asked === 'one' && shownAnswers.size < 4) return false;
	if (sum.named?.some((value) => Math.abs(value - answer) <= rightWithin)) return false;
	// Copied from the question, in whatever unit, a given must not pass for the answer.
	return Object.values(given).every((value) => units.every((written) => Math.abs(inUnit(value, written, unit) - answer) > rightWithin));
}

/** Whether an answer that is off by what steps can move it is still written the same. */
function isWrittenOneWay(answer: number): boolean {
	const [below, above] = [1 - stepsMove, 1 + stepsMove].map((share) => Number(answerFigures(answer * share)));
	return below === above;
}
