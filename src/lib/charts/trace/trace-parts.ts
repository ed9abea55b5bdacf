/** What a trace is made of: levels that are drawn as lines, and states that are so or not so and are drawn as bars. */
import type { Line, RunTrace } from '#shared/callout/state.ts';
import { decimalsOf, formatNumber } from '#shared/quantity/format.ts';
import { writtenUnit } from '$lib/ui/written';

const isState = ({ unit, values }: Line): boolean => unit === '1' && values.every((value) => value === 0 || value === 1);

/** Lines that share an axis, in the order of the trace. */
export interface Panel {
	readonly unit: string;
	/** Places in the trace's lines. */
	readonly lines: readonly number[];
}

export interface Parts {
	readonly panels: readonly Panel[];
	/** Places in the trace's lines. */
	readonly states: readonly number[];
}

/** @param beside another run of the same lines: what is a level in either is a level in both */
export function partsOf(trace: RunTrace, beside?: RunTrace): Parts {
	const states = trace.lines.flatMap((line, i) => (isState(line) && isState(beside?.lines[i] ?? line) ? [i] : []));
	const levels = trace.lines.map((_, i) => i).filter((i) => !states.includes(i));
	const units = [...new Set(levels.map((i) => trace.lines[i].unit))];
	return { panels: units.map((unit) => ({ unit, lines: levels.filter((i) => trace.lines[i].unit === unit) })), states };
}

/** A signal's name without what explains it: "Fan speed" of "Fan speed, share of full". */
export const nameOf = ({ says }: Pick<Line, 'says'>): string => says.split(/[,:]/, 1)[0];

/** The smallest step between two neighbouring values that differ; 0 for a line that never moves. */
export function stepOf(values: readonly number[]): number {
	const steps = values.slice(1).map((value, i) => Math.abs(value - values[i]));
	return Math.min(...steps.filter((step) => step > 1e-9), Infinity) % Infinity || 0;
}

/** A value with its unit, never parted, to as many decimals as the line has anywhere. */
export function valueText(line: Pick<Line, 'unit' | 'values'>, value: number): string {
	const decimals = Math.max(0, ...line.values.map((each) => (Number.isInteger(each) ? 0 : decimalsOf(Math.abs(each)))));
	const unit = line.unit === '1' ? '' : writtenUnit(line.unit);
	const figure = formatNumber(value, Math.min(decimals, 2));
	return unit ? `${figure}\u00a0${unit}` : figure;
}

/** Seconds as written on an axis and in words. */
export const secondsText = (seconds: number): string => `${Number(seconds.toFixed(1))}\u00a0s`;

/** Spans of a state in which it was so, each from a second to the second at which it was so no longer. */
export function spansOf(seconds: readonly number[], values: readonly number[]): { from: number; to: number }[] {
	const spans: { from: number; to: number }[] = [];
	const end = seconds.at(-1) ?? 0;
	values.forEach((value, i) => {
		if (value !== 1) return;
		const to = seconds[i + 1] ?? end;
		const last = spans.at(-1);
		if (last && values[i - 1] === 1) spans[spans.length - 1] = { from: last.from, to };
		else spans.push({ from: seconds[i], to });
	});
	return spans;
}

/** The point of a trace that holds at a moment: the last one not after it. @returns its place, from 0 */
export function pointAt(seconds: readonly number[], moment: number): number {
	const after = seconds.findIndex((second) => second > moment);
	return after < 0 ? seconds.length - 1 : Math.max(0, after - 1);
}

/** Place of the point nearest to a moment. */
export function nearestPoint(seconds: readonly number[], moment: number): number {
	const before = pointAt(seconds, moment);
	const next = Math.min(before + 1, seconds.length - 1);
	return seconds[next] - moment < moment - seconds[before] ? next : before;
}

/** All that can be read at one point, in words. */
export function readingAt(trace: RunTrace, at: number, beside?: RunTrace): string {
	const { states } = partsOf(trace, beside);
	const read = (run: RunTrace, place: number) =>
		run.lines.map((line, i) => {
			const value = line.values[place];
			return states.includes(i) ? `${nameOf(line)}: ${value === 1 ? 'yes' : 'no'}` : `${nameOf(line)} ${valueText(line, value)}`;
		});
	const moment = trace.seconds[at];
	const here = `At ${secondsText(moment)}: ${read(trace, at).join('; ')}.`;
	return beside ? `${here} Without the fault: ${read(beside, pointAt(beside.seconds, moment)).join('; ')}.` : here;
}
