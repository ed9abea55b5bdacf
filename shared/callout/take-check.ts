/** A check becomes a reading: the true quantity, then the instrument's error and resolution, or a sense's words. */
import type { Demand } from '#shared/appliance/model.ts';
import { observe, type Observed } from '#shared/quantity/instrument.ts';
import { chance, type Chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';
import type { Callout } from './callout.ts';
import { settled } from './run.ts';

/** Where and when a check is taken. */
export interface Taking {
	readonly demand: Demand;
	readonly cured: boolean;
	/** How often this check was taken under this demand before: each look has an error of its own. */
	readonly occasion: number;
}

/** What the check would read if nothing disturbed it: the settled quantity, or 1 or 0 for a household fact. */
export function trueValue(callout: Callout, check: Check, demand: Demand, cured: boolean): number {
	if (check.reads.startsWith('fact.')) return callout.household.facts.includes(check.reads.slice('fact.'.length)) ? 1 : 0;
	const value = settled(callout, cured, demand)[check.reads];
	if (value === undefined) throw new RangeError(`the model settles no quantity "${check.reads}" for the check "${check.id}"`);
	return value;
}

/** What is read of it by whoever takes the check. */
export function takeCheck(callout: Callout, check: Check, { demand, cured, occasion }: Taking): Observed {
	return read(callout.pack, check, trueValue(callout, check, demand, cured), chance(callout.seed, 'check', check.id, demand, occasion));
}

/** The reading that a check gives of a true value. */
export function read(pack: Pack, check: Check, value: number, stream: Chance): Observed {
	if (check.words) {
		const band = misjudged(bandOf(check, value), check.words.length, check.misjudged, stream);
		return { value: band, text: check.words[band]!.word };
	}
	const instrument = pack.instruments.find(({ id }) => id === check.instrument);
	if (!instrument) throw new RangeError(`the check "${check.id}" has neither words nor a known instrument`);
	return observe(value, instrument, stream);
}

/** Index of the band of words that a value falls in. */
export function bandOf(check: Pick<Check, 'words'>, value: number): number {
	const words = check.words ?? [];
	const index = words.findIndex(({ below }) => below === undefined || value < below);
	return index < 0 ? words.length - 1 : index;
}

/** A sense is taken in by one band: either neighbour alike, at the ends the only one there is. */
function misjudged(band: number, bands: number, likely: number, stream: Chance): number {
	if (stream.uniform() >= likely) return band;
	if (band === 0) return 1;
	if (band === bands - 1) return band - 1;
	return stream.uniform() < 0.5 ? band - 1 : band + 1;
}
