/** What an appliance family is, and how it is drawn. */
import { z } from 'zod';
import { demand, id, point, says } from './words.ts';

/** A parameter of a healthy appliance: its nominal value and how far sound ones differ (a share of it, one standard deviation). */
export const parameter = z.strictObject({
	nominal: z.number(),
	spread: z.number().min(0).max(0.5).default(0)
});

/** Where something is on the family's drawing. `symbol` names a symbol of the drawing kit. */
export const place = z.strictObject({
	id,
	name: says,
	symbol: id,
	at: point,
	turn: z.number().default(0),
	label: z.strictObject({ at: point, anchor: z.enum(['start', 'middle', 'end']).default('middle') }).optional(),
	inside: z.boolean(),
	says,
	/** Places of other families that it stands for: the same thing under another id, or several drawn there apart. */
	as: z.array(id).optional()
});
export const run = z.strictObject({
	carries: z.enum(['flow', 'return', 'cold', 'hot', 'gas', 'air', 'flue', 'live', 'neutral', 'signal', 'condensate']),
	points: z.array(point).min(2),
	inside: z.boolean().default(true)
});

export const family = z.strictObject({
	id,
	name: says,
	short: says,
	says,
	/** The code in `shared/appliance/families/` that computes it. */
	model: id,
	/** `short` is the name within a sentence. */
	demands: z.array(z.strictObject({ id: demand, name: says, short: says, minutes: z.number().positive() })),
	parameters: z.record(z.string(), parameter),
	/** The firing sequence in plain words, in order. */
	/** `throughout`: it watches the whole run instead of waiting for the step before, so that it has no place in the order. */
	sequence: z.array(z.strictObject({ id, demand, does: says, throughout: z.boolean().optional() })),
	/** What the appliance shows when it has shut down, by the model's lockout name, in words of our own. */
	indications: z.record(id, says),
	/** Indications of other families that tell the same, for those that do so under another name. */
	indicationsAs: z.record(id, z.array(id)).optional()
});

/** A family's drawing: places on a grid, joined by runs of pipe and wire. In a file of its own, since it is geometry and not trade. */
export const drawing = z.strictObject({
	family: id,
	width: z.number().positive(),
	height: z.number().positive(),
	casing: z.strictObject({ from: point, to: point }),
	places: z.array(place),
	runs: z.array(run)
});

export type FamilyData = z.infer<typeof family>;
export type Drawing = z.infer<typeof drawing>;
export type Place = z.infer<typeof place>;
export type Run = z.infer<typeof run>;
