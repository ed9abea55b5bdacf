/** Which readings are pinned to a drawing: at each place the newest, and how many were taken there. */
import type { ReadingLine } from '#shared/callout/view.ts';
import type { Drawing, Place } from '#shared/scenario/schema.ts';

export interface Pin {
	readonly place: Place;
	readonly reading: ReadingLine;
	readonly count: number;
	/** `newest` came with the last readings of all; `standing` was taken since the demand was last set or anything changed. */
	readonly age: 'newest' | 'standing' | 'earlier';
}

/** @param since  the first event whose readings still hold */
export function pinsOf(drawing: Drawing, readings: readonly ReadingLine[], since: number): Pin[] {
	const latest = readings.at(-1)?.event;
	return drawing.places.flatMap((place) => {
		const here = readings.filter((reading) => reading.place === place.id);
		const reading = here.at(-1);
		if (!reading) return [];
		const age = reading.event === latest ? 'newest' : reading.event >= since ? 'standing' : 'earlier';
		return [{ place, reading, count: here.length, age }];
	});
}
