/** Time zones by their IANA names: where a learner's days turn. */
import { eq } from 'drizzle-orm';
import { database } from './database/open.ts';
import { learner } from './database/schema.ts';

/** All that this server's own tables name, in order. */
export const zones: readonly string[] = [...new Set(['UTC', ...Intl.supportedValuesOf('timeZone')])].toSorted();

/**
 * The zone that a browser or a form names, as this server's tables name it.
 * @returns null where it names none; an offset such as `+01:00` is none, since it knows no change of clocks
 */
export function zoneOf(said: unknown): string | null {
	if (typeof said !== 'string' || !/^[A-Za-z][\w+/-]{1,63}$/.test(said)) return null;
	try {
		return new Intl.DateTimeFormat('en-GB', { timeZone: said }).resolvedOptions().timeZone;
	} catch {
		return null;
	}
}

/** @returns whether it was a zone, and is now the learner's */
export function setZone(learnerId: string, said: unknown): boolean {
	const zone = zoneOf(said);
	if (zone !== null) database().update(learner).set({ zone }).where(eq(learner.id, learnerId)).run();
	return zone !== null;
}
