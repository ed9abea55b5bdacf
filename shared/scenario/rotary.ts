/** What a tool can be set to by hand: the ranges of all of its settings, in the order of the data. */
import type { Pack } from './pack.ts';
import { measuredUnits, type Check, type Instrument, type InstrumentRange, type Measured } from './schema.ts';

export interface RotaryRange extends InstrumentRange {
	readonly measures: Measured;
	readonly unit: string;
	/** Error as a share of the value, >= 0. */
	readonly errorShare: number;
}

/** The tool that an instrument is a setting of: itself where it is a tool of its own. */
export const toolOf = (instrument: Pick<Instrument, 'id' | 'tool'>): string => instrument.tool ?? instrument.id;

export function rotaryOf(instruments: Pack['instruments'], tool: string): RotaryRange[] {
	return instruments
		.filter((instrument) => toolOf(instrument) === tool)
		.flatMap(({ measures, ranges = [], errorShare }) =>
			measures ? ranges.map((range) => ({ ...range, measures, unit: measuredUnits[measures], errorShare })) : []
		);
}

/** The instrument that a check is taken with; nothing where the senses serve. */
export function instrumentOf({ instruments }: Pick<Pack, 'instruments'>, check: Pick<Check, 'instrument'>): Instrument | undefined {
	return instruments.find(({ id }) => id === check.instrument);
}

/** A range by its id, among those of the tool that the check is taken with. */
export function rangeFor(pack: Pick<Pack, 'instruments'>, check: Pick<Check, 'instrument'>, range: string): RotaryRange | undefined {
	const instrument = instrumentOf(pack, check);
	return instrument && rotaryOf(pack.instruments, toolOf(instrument)).find(({ id }) => id === range);
}
