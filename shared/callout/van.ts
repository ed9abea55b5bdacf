/** Instruments come from the van: the first use of each costs the walk. */
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';

/** The tool that a check needs from the van, or null where the senses or the appliance itself serve. */
function toolFor(pack: Pick<Pack, 'instruments'>, check: Pick<Check, 'instrument'>): string | null {
	const instrument = pack.instruments.find(({ id }) => id === check.instrument);
	return instrument?.fetched ? (instrument.tool ?? instrument.id) : null;
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
