/** What a trade sum is made of: givens, the arithmetic, and what each misconception makes of the same givens. */
import type { Chance } from '#shared/quantity/random.ts';
import { formatNumber } from '#shared/quantity/format.ts';
import type { Pace } from '../pace.ts';

export const sumDrills = ['gas-sums', 'heat-sums', 'water-sums', 'combustion-sums', 'electrical-sums'] as const;
export type SumDrill = (typeof sumDrills)[number];

/** A figure that the question states. */
export interface GivenFigure {
	readonly name: string;
	/** As it is shown after the number; empty for a plain number. */
	readonly unit: string;
	/** It is stated to this. */
	readonly step: number;
	/** Counted, set or agreed, so that its rounding hides nothing. */
	readonly exact?: true;
}

/** A wrong way that people do take. */
export interface Misconception<K extends string = string> {
	/** What is then said to the learner: what went wrong. */
	readonly says: string;
	/** Its result, in the first unit. */
	gives(given: Readonly<Record<K, number>>): number;
}

export interface Sum<K extends string = string> {
	/** Never reused. */
	readonly id: string;
	readonly drill: SumDrill;
	readonly asks: string;
	/** A figure to be written, or one of four: the answer and what the first three misconceptions give. */
	readonly asked: 'figure' | 'one';
	/** Units to be named, the first being that of the answer and of a bare number. */
	readonly units: readonly [string, ...string[]];
	readonly pace: Pace;
	readonly given: Readonly<Record<K, GivenFigure>>;
	/** A right answer may be so far off in any case, where a share of it would mean nothing, as with a temperature [first unit]. */
	readonly atLeast?: number;
	/** Figures that stand in the question in words, such as the temperatures of a table's rows, and must not pass for the answer [first unit]. */
	readonly named?: readonly number[];
	/** Givens before they are rounded to their steps. */
	draw(chance: Chance): Readonly<Record<K, number>>;
	/** @returns the answer [first unit] */
	solve(given: Readonly<Record<K, number>>): number;
	/** How one comes to it. @param answer with its unit, to end the last line */
	worked(given: Readonly<Record<K, number>>, answer: string): readonly string[];
	readonly misconceptions: readonly Misconception<K>[];
}

/** Lets the names of the givens be known from `given`. */
export const defineSum = <K extends string>(sum: Sum<K>): Sum => sum;

/** An answer as it is written: to three figures, from 1000 on to four; a whole number below that as it is. */
export function answerFigures(value: number): string {
	const count = Math.abs(value) >= 1000 ? 4 : 3;
	return Number.isInteger(value) && count === 3 ? formatNumber(value, 0) : toFigures(value, count);
}

/** A step on the way: to six figures, without noughts at its end, so that rounding it does not show in an answer of three or four. */
export function step(value: number): string {
	const text = toFigures(value, 6);
	return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

function toFigures(value: number, count: number): string {
	const rounded = Number(value.toPrecision(count));
	const magnitude = rounded === 0 ? 0 : Math.floor(Math.log10(Math.abs(rounded)));
	return formatNumber(rounded, Math.min(10, Math.max(0, count - 1 - magnitude)));
}
