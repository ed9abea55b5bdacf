/** A run as signals over time. */
import type { Definition, Trace } from '#shared/appliance/model.ts';
import { TICK_S } from './tick.ts';

/** A named signal, and how it is picked from a moment of the run. */
export interface Signal<Moment> extends Definition {
	readonly of: (m: Moment) => number;
}

/** What runs a machine for some seconds at an integration step, and shows it every half second, or every step where `eachStep`. */
export type Run<Moment> = (seconds: number, stepS: number, observe: (m: Moment) => void, eachStep?: boolean) => void;

/**
 * @param seconds length of the run [s], > 0
 * @param stepS   sampling step [s], 0.05 to 60, and the integration step where it is finer than the board's look
 */
export function traceOf<Moment extends { readonly seconds: number }>(
	signals: readonly Signal<Moment>[],
	run: Run<Moment>,
	seconds: number,
	stepS: number
): Trace {
	const every = Math.max(1, Math.round(stepS / TICK_S));
	const at: number[] = [];
	const columns = signals.map((): number[] => []);
	let moments = 0;
	const note = (m: Moment): void => {
		if (moments % every === 0) {
			at.push(m.seconds);
			signals.forEach((signal, i) => columns[i]!.push(signal.of(m)));
		}
		moments += 1;
	};
	run(seconds, Math.min(stepS, TICK_S), note, stepS < TICK_S);
	return {
		seconds: Float64Array.from(at),
		signals: Object.fromEntries(signals.map((signal, i) => [signal.key, Float64Array.from(columns[i]!)]))
	};
}
