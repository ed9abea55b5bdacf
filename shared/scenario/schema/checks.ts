/** What can be looked at, listened to, felt, measured or asked. */
import { z } from 'zod';
import { area, demand, disturbances, id, says, siteState } from './words.ts';

/** A word for a band of the quantity: bands in rising order, each up to and without `below`; the last has no `below`. */
export const wordBand = z.strictObject({ word: z.string().min(1), below: z.number().optional() });

/** Why a check reads what it reads: a sentence with `{quantity}` or `{quantity:digits}` from the run. */
const reason = says;
/**
 * A reason for some readings only: for the words in `when`, or for numbers up to and without `below`, in rising order; the last has no
 * `below`.
 */
const reasonWhen = z.strictObject({
	when: z.union([z.string().min(1), z.array(z.string().min(1)).min(1)]).optional(),
	below: z.number().optional(),
	says: reason
});

const pair = z.tuple([id, id]);
/** Where the leads of a meter can be put, the two points that the check is taken between, and what any other two of them read. */
export const terminals = z.strictObject({
	points: z.array(z.strictObject({ id, name: says, wire: z.enum(['live', 'neutral', 'earth', 'signal']) })).min(2),
	between: pair,
	others: z
		.array(
			z.strictObject({
				between: pair,
				/** A quantity of the model; `nothing` where there is none between them, `open` where nothing joins them. */
				reads: z.string(),
				/** The quantity that is taken off it, the difference without its sign. */
				less: z.string().optional(),
				times: z.number().positive().default(1)
			})
		)
		.default([])
});

export const check = z.strictObject({
	id,
	name: says,
	/** How it is done, in one or two sentences. */
	how: says,
	way: z.enum(['look', 'listen', 'feel', 'measure', 'ask']),
	place: id,
	area,
	under: z.array(demand).min(1),
	/** The settled quantity that it reads. */
	reads: z.string(),
	unit: z.string().default(''),
	instrument: id.optional(),
	/** What stands on the instrument while the check is taken, where what is read is a change of it. */
	carries: z.string().optional(),
	terminals: terminals.optional(),
	/** For senses and answers: what the learner is told, by bands of the quantity. */
	words: z.array(wordBand).min(2).optional(),
	/** The chance that a sense is misjudged by one band. */
	misjudged: z.number().min(0).max(0.3).default(0),
	/** Given freely to anyone standing there whenever the demand is set. */
	noticed: z.boolean().default(false),
	/** What is followed over the whole run, with the step to which it can be read: signals of the model. */
	over: z.array(z.strictObject({ signal: z.string(), step: z.number().positive() })).optional(),
	minutes: z.number().min(0),
	needs: z.array(siteState).default([]),
	/** What it opens that must be checked afterwards, as work would. */
	disturbs: z.array(z.enum(disturbances)).default([]),
	live: z.boolean().default(false),
	caution: says.optional(),
	/** What can make it mislead; there is always something. */
	misleads: says,
	/** Why it takes the value it takes: one sentence that is true of every reading, or one for each. */
	why: z.union([reason, z.array(reasonWhen).min(2)])
});

export type Terminals = z.infer<typeof terminals>;
export type Check = z.infer<typeof check>;
