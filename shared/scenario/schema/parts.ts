/** What can be fitted or done. */
import { z } from 'zod';
import { disturbances, id, says, siteState, span } from './words.ts';

export const remedyKinds = ['fit', 'clean', 'adjust', 'descale', 'repressurise', 'reset', 'advise'] as const;
const doing = {
	minutes: z.number().positive(),
	place: id,
	needs: z.array(siteState).default([]),
	disturbs: z.array(z.enum(disturbances)).default([])
};
/** A part: its price band in the rules' currency, and how it is fitted. Each part is also the remedy `fit-<id>`. */
export const part = z.strictObject({ id, name: says, price: span, ...doing });
/** A remedy that is not a part. `price` is of what it uses up, `caution` what to beware of while it is done. */
export const remedy = z.strictObject({
	id,
	name: says,
	kind: z.enum(remedyKinds),
	price: z.number().min(0).default(0),
	...doing,
	caution: says.optional()
});

export type Part = z.infer<typeof part>;
