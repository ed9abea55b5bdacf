/**
 * Which range of a tool suits a figure that is expected, by the rules that the bench reads by. That too low and too wide a range are what
 * people set is common practice, no source.
 */
import type { Pack } from '#shared/scenario/pack.ts';
import { instrumentOf, rotaryOf, toolOf, type RotaryRange } from '#shared/scenario/rotary.ts';
import type { Check, Instrument } from '#shared/scenario/schema.ts';
import type { Ground } from '../../drill.ts';

/** What a range makes of the figure. `near` is so close to a limit that it is not asked about. */
export type Fit = 'fits' | 'too-low' | 'too-coarse' | 'measures-else' | 'near';

/** Room that a range must have over what is expected, and must lack to be called too low, as shares of it. */
const room = 1.04;
const lack = 0.9;
/** A step of at most this share of the figure is fine enough, as it is on the bench; of at least that, it is too coarse. */
const fine = 0.01;
const coarse = 0.04;

export function fitOf(range: RotaryRange, own: Instrument, expected: number): Fit {
	if (range.measures !== own.measures) return 'measures-else';
	if (range.over < expected * lack) return 'too-low';
	if (range.over < expected * room) return 'near';
	if (range.resolution <= Math.max(own.resolution, fine * expected)) return 'fits';
	return range.resolution >= coarse * expected ? 'too-coarse' : 'near';
}

export interface Ranged {
	readonly check: Check;
	readonly own: Instrument;
	readonly ranges: readonly RotaryRange[];
}

const fewestRanges = 3;

/** Checks taken with a tool that is set to a range by hand and has enough of them to choose from. */
export function rangedChecks(pack: Pack): Ranged[] {
	return pack.checks.flatMap((check): Ranged[] => {
		const own = instrumentOf(pack, check);
		if (!own?.measures) return [];
		const ranges = rotaryOf(pack.instruments, toolOf(own));
		return ranges.length >= fewestRanges ? [{ check, own, ranges }] : [];
	});
}

export const hasRanges = ({ pack }: Ground): boolean => pack !== null && rangedChecks(pack).length > 0;

/** To two figures, as one would expect it before measuring. */
export function expectation(value: number): number {
	if (value === 0) return 0;
	const step = 10 ** (Math.floor(Math.log10(Math.abs(value))) - 1);
	return Number((Math.round(value / step) * step).toPrecision(2));
}
