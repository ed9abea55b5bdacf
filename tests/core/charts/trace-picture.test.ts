/** The picture, the table, the cursor and the words of a trace come from the same points and say the same. */
import { describe, expect, it } from 'vitest';
import { follow } from '#shared/callout/follow.ts';
import type { RunTrace } from '#shared/callout/state.ts';
import { timeMarks, valueAxis } from '$lib/charts/trace/axis';
import { between } from '$lib/charts/trace/simplify';
import { nearestPoint, partsOf, pointAt, readingAt, spansOf } from '$lib/charts/trace/trace-parts';
import { tableTolerance, traceRows } from '$lib/charts/trace/trace-table';
import { calloutsWith, combi } from '../../sampled.ts';

const checks = combi.checks.filter(({ over }) => over);
/** Every check over time on a steady, a cycling, a locked-out and a dead appliance, with the sound one beside. */
const runs = ['plate-scaled', 'turbine-sticking', 'injector-blocked', 'board-dead'].flatMap((fault) =>
	calloutsWith(fault, 2).flatMap((callout) =>
		checks.flatMap((check) => {
			const demand = check.under.find((each) => each !== 'none')!;
			return [{ taken: follow(combi, callout.faulty, check, demand)!, sound: follow(combi, callout.sound, check, demand)! }];
		})
	)
);

/** What a reader of the table takes a line to be at a second: even between rows for a level, held for a state. */
function fromTable(seconds: readonly number[], values: readonly number[], second: number, isState: boolean): number {
	const row = pointAt(seconds, second);
	if (isState || row === seconds.length - 1) return values[row];
	return between([seconds[row], second, seconds[row + 1]], [values[row], 0, values[row + 1]], 0, 2, 1);
}

describe('the table of a trace', () => {
	it('equals the picture to what could be read, and states to the second', () => {
		let compared = 0;
		for (const { taken, sound } of runs) {
			const rows = traceRows(taken, sound);
			const seconds = rows.map(({ second }) => second);
			const { states } = partsOf(taken, sound);
			for (const [run, pick] of [
				[taken, (i: number) => rows.map((row) => row.values[i])],
				[sound, (i: number) => rows.map((row) => row.beside![i])]
			] as [RunTrace, (i: number) => number[]][]) {
				run.lines.forEach(({ values, signal }, i) => {
					const tolerance = states.includes(i) ? 0 : tableTolerance(values) + 1e-9;
					run.seconds.forEach((second, at) => {
						const read = fromTable(seconds, pick(i), second, states.includes(i));
						// A row that the other run asked for lies between two points of this one: it may be one step older.
						const slack = states.includes(i) ? 0 : tolerance + largestStep(values);
						expect(Math.abs(read - values[at]), `${signal} at ${second} s`).toBeLessThanOrEqual(slack);
						compared++;
					});
				});
			}
		}
		expect(compared).toBeGreaterThan(5000);
	});

	it('alone, misses no level by more than its tolerance, and is far shorter than the picture', () => {
		for (const { taken } of runs) {
			const rows = traceRows(taken);
			const { states } = partsOf(taken);
			taken.lines.forEach(({ values }, i) => {
				if (states.includes(i)) return;
				const read = (second: number) =>
					fromTable(
						rows.map((row) => row.second),
						rows.map((row) => row.values[i]),
						second,
						false
					);
				taken.seconds.forEach((second, at) =>
					expect(Math.abs(read(second) - values[at])).toBeLessThanOrEqual(tableTolerance(values) + 1e-9)
				);
			});
		}
		const points = runs.reduce((sum, { taken }) => sum + taken.seconds.length, 0);
		const rows = runs.reduce((sum, { taken }) => sum + traceRows(taken).length, 0);
		expect(rows).toBeLessThan(points / 3);
	});
});

const largestStep = (values: readonly number[]) => Math.max(0, ...values.slice(1).map((value, i) => Math.abs(value - values[i])));

describe('the cursor', () => {
	const trace: RunTrace = {
		seconds: [0, 2, 2.5, 4],
		lines: [
			{ signal: 'fanPercent', says: 'Fan speed, share of full', unit: '%', values: [0, 45, 50, 60] },
			{ signal: 'sparking', says: 'Igniter sparking', unit: '1', values: [0, 1, 0, 0] }
		]
	};
	it('reads every line at the point nearest to it', () => {
		expect(nearestPoint(trace.seconds, 2.1)).toBe(1);
		expect(nearestPoint(trace.seconds, 3.9)).toBe(3);
		expect(nearestPoint(trace.seconds, 99)).toBe(3);
		expect(readingAt(trace, 1).replaceAll('\u00a0', ' ')).toBe('At 2 s: Fan speed 45 %; Igniter sparking: yes.');
	});
	it('reads the sound run at the same second, not at the same place in the list', () => {
		const sound = { seconds: [0, 4], lines: trace.lines.map((line) => ({ ...line, values: [10, 20] })) };
		expect(readingAt(trace, 2, sound)).toMatch(/^At 2.5\u00a0s: Fan speed 50.*Without the fault: Fan speed 10/);
	});
	it('shows a spark that is shorter than the space between two points', () => {
		expect(spansOf(trace.seconds, trace.lines[1].values)).toEqual([{ from: 2, to: 2.5 }]);
		const listen = checks.find(({ id }) => id === 'listen-fan-over-time')!;
		for (const { faulty } of calloutsWith('plate-scaled', 5)) {
			const { seconds, lines } = follow(combi, faulty, listen, 'tap')!;
			const [spark] = spansOf(seconds, lines.find(({ signal }) => signal === 'sparking')!.values);
			expect(spark!.to - spark!.from).toBeGreaterThan(0);
			expect(spark!.to - spark!.from).toBeLessThan(2);
		}
	});
});

describe('an axis', () => {
	it('holds all values between round marks', () => {
		for (const { taken } of runs) {
			for (const { values, unit } of taken.lines) {
				const { from, to, marks } = valueAxis(values, unit);
				expect(from).toBeLessThanOrEqual(Math.min(...values));
				expect(to).toBeGreaterThanOrEqual(Math.max(...values));
				expect(marks.length).toBeLessThanOrEqual(7);
			}
		}
		expect(valueAxis([0, 62], '%')).toEqual({ from: 0, to: 100, marks: [0, 25, 50, 75, 100] });
	});
	it('marks time from nought', () => {
		expect(timeMarks(240)).toEqual([0, 60, 120, 180, 240]);
		expect(timeMarks(900)).toEqual([0, 300, 600, 900]);
	});
});
