/** What can be wrong with an appliance. */
import { z } from 'zod';
import { area, id, says, span } from './words.ts';

/**
 * What severity does to one parameter. `to`: straight from the healthy value at severity 0 to this value at 1. `times`: the healthy value
 * multiplied, from 1 at severity 0 to this factor at 1. `becomes`: this value at any severity above 0.
 */
export const change = z.union([
	z.strictObject({ to: z.number() }),
	z.strictObject({ times: z.number().min(0) }),
	z.strictObject({ becomes: z.number() })
]);

export const fault = z.strictObject({
	id,
	area,
	says,
	/** What it does to the appliance, for the debrief: one or two sentences. */
	because: says,
	changes: z.record(z.string(), change),
	/** Severities met in callouts; severity 0 is always the healthy machine. */
	severity: span,
	weight: z.number().positive(),
	/** Household facts that make it likelier, and how many times. */
	raised: z.record(id, z.number().positive()).default({}),
	/** Checks that show it. However likely it is, nothing counts as proved before one of them has been taken. */
	shown: z.array(id).min(1),
	/** Remedies that cure it, the soundest first. */
	cured: z.array(id).min(1),
	/** Advice that deals with the cause behind the cause. */
	advise: z.array(id).default([]),
	/** Faults that no check offered can tell from this one, sharing a remedy. */
	alike: z.array(id).default([])
});

export type Change = z.infer<typeof change>;
export type Fault = z.infer<typeof fault>;
