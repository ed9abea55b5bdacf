/** Everything a learner can do in a callout. A path is a list of these; all else follows from pack, seed and path. */
import { z } from 'zod';
import { demands } from '#shared/appliance/model.ts';

const id = z.string().min(1).max(80);

/** How sure the learner says they are when a remedy is tried. */
export const sureness = ['guess', 'likely', 'proved'] as const;
export type Sureness = (typeof sureness)[number];

/** Characters that a note on the job sheet may have. */
export const noteLength = 500;

/** Faults that one prediction tells apart. */
export const mostSuspects = 3;

const eachOnce = (ids: string[]): string[] => [...new Set(ids)];

export const action = z.discriminatedUnion('kind', [
	/** Set what the appliance is asked for, and wait until it has steadied. */
	z.strictObject({ kind: z.literal('demand'), demand: z.enum(demands) }),
	/** Take one check under the present demand. What is left out of range and terminals, the instrument and the check settle themselves. */
	z.strictObject({ kind: z.literal('check'), check: id, range: id.optional(), terminals: z.tuple([id, id]).optional() }),
	/** A make-safe or access step from the rules. */
	z.strictObject({ kind: z.literal('step'), step: id }),
	/** Fit a part or do another remedy. */
	z.strictObject({ kind: z.literal('remedy'), remedy: id, sure: z.enum(sureness) }),
	/** Say which faults are still in; each once. */
	z.strictObject({ kind: z.literal('judge'), still: z.array(id).max(200).transform(eachOnce) }),
	/** Write something on the job sheet. */
	z.strictObject({ kind: z.literal('note'), text: z.string().trim().min(1).max(noteLength) }),
	/** Say, before a check, what it would read if each of a few faults were the one. */
	z.strictObject({
		kind: z.literal('predict'),
		check: id,
		expects: z
			.array(z.strictObject({ fault: id, reads: id }))
			.min(2)
			.max(mostSuspects)
	}),
	/** Run the demand complained of and take the readings that show a cure. */
	z.strictObject({ kind: z.literal('prove') }),
	/** Leave, having told the customer these things. */
	z.strictObject({ kind: z.literal('leave'), told: z.array(id).max(50) })
]);
export type Action = z.infer<typeof action>;
