/** Words that many shapes of `scenarios/` are made of. */
import { z } from 'zod';
import { demands } from '#shared/appliance/model.ts';
import { areas, type Area } from '../areas.ts';

export const id = z.string().regex(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/, 'an id: lower-case words joined by hyphens');
export const says = z.string().min(3);
export const span = z.strictObject({ from: z.number(), to: z.number() }).refine((s) => s.from <= s.to, 'from must not be above to');
export const demand = z.enum(demands);

export const area = z.enum(Object.keys(areas) as [Area, ...Area[]]);

/** The state of the site that a check or a remedy may need, and that make-safe steps bring about. */
export const siteStates = [
	'casing-off',
	'casing-on',
	'electricity-on',
	'electricity-off',
	'proved-dead',
	'gas-on',
	'gas-off',
	'water-on',
	'water-off'
] as const;
export type SiteState = (typeof siteStates)[number];
export const siteState = z.enum(siteStates);

export const point = z.tuple([z.number(), z.number()]);

/** What work can leave in need of a check. */
export const disturbances = ['gas', 'water', 'electrics', 'combustion'] as const;
