/** Instruments come from the van: the first use of each costs the walk. */
import type { Pack } from '#shared/scenario/pack.ts';
import { instrumentOf, toolOf } from '#shared/scenario/rotary.ts';
import type { Check } from '#shared/scenario/schema.ts';

/** The tool that a check needs from the van, or null where the senses or the appliance itself serve. */
function toolFor(pack: Pick<Pack, 'instruments'>, check: Pick<Check, 'instrument'>): string | null {
	const instrument = instrumentOf(pack, check);
	return instrument?.fetched ? toolOf(instrument) : null;
}

/** Tools at hand once the one that this check needs is spoilt: its next use costs the walk again. */
export function without(
	pack: Pick<Pack, 'instruments'>,
	atHand: ReadonlySet<string>,
	check: Pick<Check, 'instrument'>
): ReadonlySet<string> {
	const spoilt = toolFor(pack, check);
	return new Set([...atHand].filter((tool) => tool !== spoilt));
}

/** Tools at hand once these checks can be taken, and the minutes of the walks for those that were not. */
export function fetching(
	pack: Pick<Pack, 'instruments' | 'rules'>,
	atHand: ReadonlySet<string>,
	checks: readonly Pick<Check, 'instrument'>[]
): { readonly minutes: number; readonly fetched: ReadonlySet<string> } {
	const needed = checks.map((check) => toolFor(pack, check)).filter((tool) => tool !== null);
	const fetched = new Set([...atHand, ...needed]);
	return { minutes: (fetched.size - atHand.size) * pack.rules.fetchMinutes, fetched };
}
