/**
 * The shapes of everything the trade writes in `scenarios/`. A file that does not fit is refused with its file, line and key
 * (see `read.ts`); what fits together is checked in `cross-check.ts`.
 */
export { areas, type Area } from './areas.ts';
export * from './schema/checks.ts';
export * from './schema/family.ts';
export * from './schema/faults.ts';
export * from './schema/households.ts';
export * from './schema/instruments.ts';
export * from './schema/parts.ts';
export * from './schema/rules.ts';
export { disturbances, siteStates, type SiteState } from './schema/words.ts';
