/** A check over time: the signals that it follows, over the run that it was taken in. */
import type { Demand, Parameters } from '#shared/appliance/model.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';
import type { RunTrace } from './state.ts';

/** Points of a trace: fine enough for a picture a hand wide, light enough to send. */
const POINTS = 120;

/**
 * @param machine the appliance as it is now
 * @returns the signals that the check follows, each rounded to the step it can be read to; nothing for a check that follows none
 */
export function follow(
	{ model }: Pick<Pack, 'model'>,
	machine: Parameters,
	check: Pick<Check, 'over'>,
	demand: Demand
): RunTrace | undefined {
	if (!check.over) return undefined;
	const runS = model.runS[demand];
	const { seconds, signals } = model.trace(machine, demand, runS);
	const every = Math.max(1, Math.floor(seconds.length / POINTS));
	const states = check.over.map(({ signal }) => signals[signal]).filter((values) => values?.every((value) => value === 0 || value === 1));
	// What is so or not so may last a second, less than from point to point: its changes are points of their own.
	const changes = (at: number): boolean => states.some((values) => at > 0 && values?.[at] !== values?.[at - 1]);
	const kept = (values: Float64Array, step: number): number[] =>
		Array.from(values)
			.filter((_, at) => at % every === 0 || changes(at))
			.map((value) => Number((Math.round(value / step) * step).toPrecision(6)));
	const lines = check.over.map(({ signal, step }) => {
		const definition = model.signals.find(({ key }) => key === signal);
		const values = signals[signal];
		if (!definition || !values) throw new RangeError(`the model traces no signal "${signal}"`);
		return { signal, says: definition.says, unit: definition.unit, values: kept(values, step) };
	});
	return { seconds: kept(seconds, 0.5), lines };
}
