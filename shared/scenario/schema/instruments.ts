/** What is measured with. */
import { z } from 'zod';
import { id, says } from './words.ts';

/** What an instrument's ranges can measure, with the unit that they show. */
export const measuredUnits = { ohms: 'ohm', 'volts a.c.': 'V', 'volts d.c.': 'V', pressure: 'mbar', temperature: 'degC' } as const;
export type Measured = keyof typeof measuredUnits;

/** Instruments that have a face of their own on the bench. */
export const instrumentFaces = ['meter', 'manometer', 'thermometer', 'analyser', 'flow-cup', 'rev-counter', 'microammeter'] as const;
export type InstrumentFace = (typeof instrumentFaces)[number];

/** One range that the instrument can be set to by hand. Its error is one standard deviation; the share of the value is the instrument's. */
export const instrumentRange = z.strictObject({
	id,
	name: says,
	error: z.number().min(0),
	resolution: z.number().positive(),
	/** Above this the display says that it is over range. */
	over: z.number().positive()
});

/** A way of using a tool: what it shows when it sets itself, and the ranges that it can be set to instead. */
export const instrument = z.strictObject({
	id,
	name: says,
	/** Errors are one standard deviation: absolute in the reading's unit, and as a share of the value. */
	error: z.number().min(0),
	errorShare: z.number().min(0).default(0),
	resolution: z.number().positive(),
	/** Above this the display says that it is over range. */
	over: z.number().optional(),
	/** What it shows where there is nothing to show, in place of `over range`. */
	beyond: says.optional(),
	/** The tool that it is a setting of; left out where it is a tool of its own. */
	tool: id.optional(),
	/** The face that the tool has on the bench. */
	face: z.enum(instrumentFaces).optional(),
	/** What its ranges measure. */
	measures: z.enum(Object.keys(measuredUnits) as [Measured, ...Measured[]]).optional(),
	/** Rising. A tool's ranges are those of all of its settings together. */
	ranges: z.array(instrumentRange).min(1).optional(),
	/** Fetched from the van once; the senses are always at hand. */
	fetched: z.boolean().default(true)
});

export type Instrument = z.infer<typeof instrument>;
export type InstrumentRange = z.infer<typeof instrumentRange>;
