/** How checks, demands and readings are put in these drills. */
import type { Demand } from '#shared/appliance/model.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check, Fault } from '#shared/scenario/schema.ts';
import type { Given } from '../drill.ts';

export const demandName = (pack: Pack, demand: Demand): string => pack.family.demands.find(({ id }) => id === demand)?.name ?? demand;
export const demandShort = (pack: Pack, demand: Demand): string => pack.family.demands.find(({ id }) => id === demand)?.short ?? demand;

/** A check with the demand that it is taken under: `Heating pipe by hand (tap open)`. */
export const checkUnder = (pack: Pack, check: Check, demand: Demand): string => `${check.name} (${demandShort(pack, demand)})`;

/** What is shown, with its unit where it is a figure. */
export const readingText = ({ value, text }: { readonly value: number; readonly text: string }, check: Check): string =>
	Number.isFinite(value) ? `${text} ${check.unit}`.trim() : text;

/** Everything about one reading that somebody who has to judge it would know. */
export function readingGiven(
	pack: Pack,
	check: Check,
	demand: Demand,
	reading: { readonly value: number; readonly text: string }
): Given[] {
	return [
		{ name: 'Check', value: check.name },
		{ name: 'How', value: check.how },
		{ name: 'Demand', value: demandName(pack, demand) },
		{ name: 'Reading', value: readingText(reading, check) }
	];
}

/** A sentence of a fault without its full stop, to stand within another. */
export const faultName = ({ says }: Pick<Fault, 'says'>): string => `"${says.replace(/\.$/, '')}"`;

export const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
