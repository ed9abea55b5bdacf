/**
 * What an appliance sounds like over a run, as numbers that a synthesiser can follow: fan, igniter, burner and tap.
 *
 * Pitch follows speed, as the passing of the blades does; loudness is of the order heard at an arm's length (common practice, no source).
 */
import type { commonNames, Demand } from '#shared/appliance/model.ts';
import type { RunTrace } from '#shared/callout/state.ts';
import { spansOf } from '$lib/charts/trace/trace-parts';

/** A run is played this many times faster than it went. */
export const timesFaster = 12;

/** Passing of the blades with the fan at full speed [Hz]. */
const fullWhineHz = 620;
/** Middle of the sound of the air at rest and at full speed [Hz]. */
const airHz = { atRest: 300, atFull: 1700 };
/** Played seconds between two sparks. */
const sparkEveryS = 0.05;
/** Share of full loudness; all together stay under 1, so that nothing is clipped. */
const loudest = { whine: 0.14, air: 0.22, burner: 0.3, tick: 0.18, water: 0.12 };
const waterShare: Readonly<Record<Demand, number>> = { none: 0, heating: 0, 'part-tap': 0.5, tap: 1, both: 1 };

/** The fan at a moment of the playing; in between, everything changes evenly. */
export interface FanSound {
	/** Played seconds from the start. */
	readonly at: number;
	readonly whineHz: number;
	readonly whineGain: number;
	readonly airHz: number;
	readonly airGain: number;
}

/** What can be heard, by the name that it has in every family. */
type Heard = keyof typeof commonNames.signals;

export interface SoundPlan {
	/** Length of the playing [s]. */
	readonly seconds: number;
	readonly fan: readonly FanSound[];
	/** The burner holds each loudness until the next. */
	readonly burner: readonly { readonly at: number; readonly gain: number }[];
	/** Played seconds at which the igniter ticks. */
	readonly ticks: readonly { readonly at: number; readonly gain: number }[];
	/** Loudness of the running tap, the same throughout. */
	readonly water: number;
}

/**
 * The mapping from a run that was listened to.
 * @param trace   with `fanPercent` [%], `burnerOn` and `sparking` [0 or 1] as far as they were followed; what was not is silent
 * @param demand  by which it is known whether a tap runs
 */
export function soundPlan(trace: RunTrace, demand: Demand): SoundPlan {
	const { seconds } = trace;
	const line = (signal: Heard) => trace.lines.find((each) => each.signal === signal)?.values;
	const fan = line('fanPercent');
	const burner = line('burnerOn') ?? [];
	const shareAt = (i: number) => Math.min(1, Math.max(0, (fan?.[i] ?? 100) / 100));
	return {
		seconds: (seconds.at(-1) ?? 0) / timesFaster,
		fan: fan ? seconds.map((second, i) => fanAt(second / timesFaster, shareAt(i))) : [],
		burner: burner.map((lit, i) => ({ at: seconds[i] / timesFaster, gain: lit * loudest.burner * (0.4 + 0.6 * shareAt(i)) })),
		ticks: spansOf(seconds, line('sparking') ?? []).flatMap(({ from, to }) => ticksBetween(from / timesFaster, to / timesFaster)),
		water: loudest.water * waterShare[demand]
	};
}

/** @param share speed, share of full */
function fanAt(at: number, share: number): FanSound {
	return {
		at,
		whineHz: fullWhineHz * share,
		whineGain: loudest.whine * share,
		airHz: airHz.atRest + (airHz.atFull - airHz.atRest) * share,
		airGain: loudest.air * share ** 2
	};
}

function ticksBetween(from: number, to: number): { at: number; gain: number }[] {
	const count = Math.max(1, Math.floor((to - from) / sparkEveryS + 1e-9));
	return Array.from({ length: count }, (_, i) => ({ at: from + i * sparkEveryS, gain: loudest.tick }));
}

const heardAs: readonly (readonly [signal: Heard, says: string])[] = [
	['fanPercent', 'the fan by its whine, which rises with its speed'],
	['sparking', 'the igniter by its ticking'],
	['burnerOn', 'the burner by its rumble']
];

/** Which sound stands for what, so that the sound can be read beside the picture and the words. */
export function soundWords(trace: RunTrace, demand: Demand): string {
	const followed = heardAs.filter(([signal]) => trace.lines.some((line) => line.signal === signal)).map(([, says]) => says);
	const all = waterShare[demand] > 0 ? [...followed, 'the tap by its rush of water'] : followed;
	return `Heard ${timesFaster} times faster than life: ${all.join('; ')}.`;
}
