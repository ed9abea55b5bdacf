/** Where the appliance stands, and what its owner says. */
import { z } from 'zod';
import { demand, id, says, span } from './words.ts';

/**
 * A household archetype. Facts are what the customer can tell: `facts` always hold, `maybe` hold with this chance. Parameters override the
 * family's, as spans sampled evenly; those of a fact that holds override the archetype's in turn.
 */
export const household = z.strictObject({
	id,
	says,
	weight: z.number().positive(),
	gas: z.enum(['G20', 'G25', 'G31']).default('G20'),
	facts: z.array(id),
	maybe: z.record(id, z.number().min(0).max(1)).default({}),
	parameters: z.record(z.string(), span)
});
/** A household fact, put as the customer would, and the parameter span that goes with it where it has one. */
export const fact = z.strictObject({ id, says, parameters: z.record(z.string(), span).default({}) });

/** A complaint is offered only where every condition holds for the simulated appliance. Bounds may name a settled quantity. */
export const complaint = z.strictObject({
	id,
	says: z.array(says).min(1),
	when: z.array(z.strictObject({ demand, quantity: z.string(), above: z.number().optional(), below: z.number().optional() })).min(1),
	/** The demand complained of, under which a repair is proved, and the checks that show it. */
	proves: z.strictObject({ demand, checks: z.array(id).min(1) })
});

export type HouseholdData = z.infer<typeof household>;
export type Fact = z.infer<typeof fact>;
export type Complaint = z.infer<typeof complaint>;
