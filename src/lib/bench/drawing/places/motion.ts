/**
 * How the moving part of a place may move: only as the learner has noticed or measured there, under the demand that stands, since it was
 * set and since anything was changed. What was not noticed does not move, whatever the appliance does.
 */
import type { CalloutView, ReadingLine } from '#shared/callout/view.ts';

export type Pace = 'steady' | 'slow' | 'fitful' | 'still';

/** What readings in words say of the moving part, by the drawing kit's symbol. A reading that says nothing of it is not here. */
export const paceOfWord: Readonly<Record<string, Readonly<Record<string, Pace>>>> = {
	fan: {
		silent: 'still',
		runs: 'steady',
		'never runs': 'still',
		'runs up and stops': 'still',
		'winds down below half': 'slow',
		'winds down': 'slow',
		'holds its speed': 'steady'
	},
	pump: {
		silent: 'still',
		labours: 'slow',
		'steady hum': 'steady',
		'does not turn': 'still',
		'a screwdriver stops it': 'slow',
		strong: 'steady'
	},
	turbine: { dark: 'still', 'goes on and off': 'fitful', 'lit and steady': 'steady' },
	motor: { 'does not travel': 'still', 'travels from end to end': 'steady' },
	burner: {
		'not lit': 'still',
		'lights and goes out': 'fitful',
		lit: 'steady',
		'never lights': 'still',
		'lights for seconds and goes out': 'fitful',
		'lights once and stays': 'steady',
		'lights again and again': 'fitful'
	}
};

/** The pace as a word, where it cannot be shown moving. */
const paceWords: Readonly<Record<string, Readonly<Record<Pace, string>>>> = {
	motor: { steady: 'travels', slow: 'travels slowly', fitful: 'travels by fits', still: 'stands still' },
	burner: { steady: 'burns', slow: 'burns low', fitful: 'burns on and off', still: 'out' },
	'': { steady: 'turns', slow: 'turns slowly', fitful: 'turns on and off', still: 'stands still' }
};

export function paceWord(symbol: string, pace: Pace): string {
	return (paceWords[symbol] ?? paceWords[''])![pace];
}

type Seen = Pick<ReadingLine, 'event' | 'place' | 'demand' | 'text' | 'value' | 'unit'>;

/** The first event whose readings still hold: the last that set a demand or changed the appliance. */
export function holdsFrom(events: readonly Pick<CalloutView['events'][number], 'kind' | 'index'>[]): number {
	return events.findLast(({ kind }) => kind === 'demand' || kind === 'prove' || kind === 'remedy')?.index ?? 0;
}

/**
 * @param readings  those taken so far, in order
 * @param demand    what the appliance is asked for now
 * @param since     the first event whose readings still hold
 * @returns the pace that the newest telling reading at the place bears out; null where none was taken
 */
export function paceAt(
	place: { readonly id: string; readonly symbol: string },
	readings: readonly Seen[],
	demand: Seen['demand'],
	since: number
): Pace | null {
	const words = paceOfWord[place.symbol];
	if (!words) return null;
	for (const reading of readings.toReversed()) {
		if (reading.place !== place.id || reading.demand !== demand || reading.event < since) continue;
		// Turns counted by an instrument.
		if (reading.unit === '1/min') return reading.value > 0 ? 'steady' : 'still';
		const pace = words[reading.text];
		if (pace) return pace;
	}
	return null;
}
