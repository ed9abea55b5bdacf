/** The picture of a trace as a table: a row wherever a line bends or a state changes. */
import type { RunTrace } from '#shared/callout/state.ts';
import { corners } from './simplify';
import { partsOf, pointAt, stepOf } from './trace-parts';

export interface TraceRow {
	readonly second: number;
	/** One for each line of the trace. */
	readonly values: readonly number[];
	/** The same of the run beside, where there is one. */
	readonly beside: readonly number[] | null;
}

/** What a straight line from row to row may miss of a level: one step that could be read, or this share of all it went through. */
const unseenShare = 0.02;

/** How far the table may be from the picture [the line's unit]. */
export function tableTolerance(values: readonly number[]): number {
	return Math.max(stepOf(values), unseenShare * (Math.max(...values) - Math.min(...values)));
}

/** Rows in which levels are joined by straight lines and states hold until the next. */
export function traceRows(trace: RunTrace, beside?: RunTrace): TraceRow[] {
	const { states } = partsOf(trace, beside);
	const seconds = [...new Set([trace, beside].flatMap((run) => (run ? bendsOf(run, states).map((i) => run.seconds[i]) : [])))];
	const read = (run: RunTrace, second: number) => run.lines.map(({ values }) => values[pointAt(run.seconds, second)]);
	return seconds
		.sort((a, b) => a - b)
		.map((second) => ({ second, values: read(trace, second), beside: beside ? read(beside, second) : null }));
}

function bendsOf({ seconds, lines }: RunTrace, states: readonly number[]): number[] {
	const bends = lines.flatMap(({ values }, i) =>
		states.includes(i)
			? [0, ...values.flatMap((value, at) => (at > 0 && value !== values[at - 1] ? [at] : [])), values.length - 1]
			: corners(seconds, values, tableTolerance(values))
	);
	return [...new Set(bends)];
}
