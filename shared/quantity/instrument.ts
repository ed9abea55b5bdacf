/** What an instrument shows of a true value: its error, its resolution and the end of its range. */
import { decimalsOf, formatNumber } from './format.ts';
import type { Chance } from './random.ts';

/** Errors are one standard deviation; all in the unit of the reading except the share. */
export interface Display {
	/** [unit of the reading], >= 0 */
	readonly error: number;
	/** Share of the true value, >= 0. */
	readonly errorShare: number;
	/** Smallest step shown [unit of the reading], > 0 */
	readonly resolution: number;
	/** End of the range [unit of the reading]; none when left out. */
	readonly over?: number | undefined;
	/** What the display shows of an infinite value; `over range` when left out. */
	readonly beyond?: string | undefined;
}

/** What is read. `value` is infinite where the text says that it is over range. */
export interface Observed {
	readonly value: number;
	readonly text: string;
}

export const overRange = 'over range';

/**
 * One look at a display: the true value disturbed by a normal error cut at three standard deviations, rounded to the resolution.
 *
 * shown = round((true + sd z) / resolution) resolution,  sd^2 = error^2 + (errorShare true)^2
 *
 * What is not below 0 is never shown below 0.
 *
 * @param trueValue [unit of the reading]; infinite (an open circuit in ohms) reads over range
 * @throws RangeError if trueValue is not a number, or the resolution is not above 0
 */
export function observe(trueValue: number, instrument: Display, chance: Chance): Observed {
	if (Number.isNaN(trueValue)) throw new RangeError('cannot observe what is not a number');
	if (!Number.isFinite(trueValue)) return { value: Infinity, text: instrument.beyond ?? overRange };
	const noisy = trueValue + disturbanceSd(trueValue, instrument) * chance.normal();
	const disturbed = trueValue >= 0 ? Math.max(0, noisy) : noisy;
	const decimals = decimalsOf(instrument.resolution);
	const text = formatNumber(Math.round(disturbed / instrument.resolution) * instrument.resolution, decimals);
	// Read back from the text: what is shown and what is reckoned with are one number, without binary dust.
	const value = Number(text);
	return instrument.over !== undefined && value > instrument.over ? { value: Infinity, text: overRange } : { value, text };
}

/**
 * Standard deviation of what is shown about the true value, rounding included: an even error of one step has resolution / sqrt(12).
 * @param value [unit of the reading]
 * @returns [unit of the reading]; infinite for an infinite value
 */
export function errorSd(value: number, instrument: Display): number {
	if (!Number.isFinite(value)) return Infinity;
	const disturbance = disturbanceSd(value, instrument);
	return Math.sqrt(disturbance * disturbance + (instrument.resolution * instrument.resolution) / 12);
}

function disturbanceSd(value: number, { error, errorShare }: Display): number {
	const share = errorShare * value;
	return Math.sqrt(error * error + share * share);
}
