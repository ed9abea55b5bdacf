/** Draws the variants of a paper from its blueprint: callouts with faults of their own that come to the same, drills with other figures. */
import { slotsOf, type Blueprint } from '#shared/assessment/blueprint.ts';
import { candidatesFor, type CalloutSlot } from '#shared/assessment/candidates.ts';
import type { DrillSlot } from '#shared/assessment/drill-items.ts';
import type { CalloutItem, DrillItem, Variant } from '#shared/assessment/variant.ts';
import { areas } from '#shared/scenario/areas.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { chance } from '#shared/quantity/random.ts';
import { shuffled } from '#shared/review/drills/draw.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Works } from '../weighing/weigher-worker.ts';

/** The blueprint cannot be filled from what is in stock; the message says where, in a sentence for whoever made it. */
export class CannotBeDrawn extends Error {
	override readonly name = 'CannotBeDrawn';
}

type Kinds = 'candidates' | 'variants' | 'drills';

export interface DrawSources {
	readonly known: ReadonlyMap<string, Pack>;
	readonly tableOf: (pack: Pack) => Promise<EvidenceTable>;
	/** Has something worked out elsewhere. */
	readonly weigh: <Kind extends Kinds>(
		pack: Pack,
		table: EvidenceTable,
		kind: Kind,
		of: Works[Kind]['of']
	) => Promise<Works[Kind]['gives']>;
}

export interface Wanted {
	readonly blueprint: Blueprint;
	readonly count: number;
	/** The same seed and packs give the same variants. */
	readonly seed: number;
}

/**
 * @param tell  called whenever another place has been filled
 * @throws CannotBeDrawn, WeighingFailed, or what the making of an evidence table failed with
 */
export async function drawVariants(wanted: Wanted, sources: DrawSources, tell: () => void): Promise<Variant[]> {
	const slots = slotsOf(wanted.blueprint);
	const places = slots.filter((slot) => slot.kind === 'callout');
	const candidates = new Map<string, CalloutItem[]>();
	const drills: DrillItem[][] = [];
	for (const slot of slots) {
		if (slot.kind === 'drill') drills.push(await drillsOf(slot, wanted, sources, drills));
		else if (!candidates.has(asksFor(slot))) candidates.set(asksFor(slot), await candidatesOf(slot, places, wanted, sources));
		tell();
	}
	const callouts = await chosen(
		places,
		places.map((slot) => candidates.get(asksFor(slot))!),
		wanted,
		sources
	);
	return callouts.map((items, index) => ({ number: index + 1, items: [...items, ...drills.map((bySlot) => bySlot[index]!)] }));
}

/** Places that ask for the same are filled from the same callouts: so there are more for each. */
const asksFor = ({ family, area }: CalloutSlot): string => `${family}/${area}`;

/** @param places  all that ask for a callout, of which it is one */
async function candidatesOf(
	slot: CalloutSlot,
	places: readonly CalloutSlot[],
	{ count: variants, seed }: Wanted,
	{ known, tableOf, weigh }: DrawSources
): Promise<CalloutItem[]> {
	const pack = known.get(slot.family);
	if (!pack) throw new CannotBeDrawn(`The family "${slot.family}" is not in stock here any more.`);
	const alike = places.filter((other) => asksFor(other) === asksFor(slot)).length;
	const [count, chosen] = [candidatesFor(variants, places.length, alike), alike * variants];
	const found = await weigh(pack, await tableOf(pack), 'candidates', { slot, count, chosen, seed });
	const where = slot.area === null ? '' : `, ${areas[slot.area].toLowerCase()}`;
	if (found.length < chosen) throw new CannotBeDrawn(`Too few callouts could be made of ${pack.family.short}${where}.`);
	return found;
}

/** Callouts by variant, then by place. */
async function chosen(
	places: readonly CalloutSlot[],
	candidates: readonly (readonly CalloutItem[])[],
	{ count, seed }: Wanted,
	{ known, tableOf, weigh }: DrawSources
): Promise<CalloutItem[][]> {
	const pack = known.get(places[0]?.family ?? '');
	if (!pack) return Array.from({ length: count }, () => []);
	return weigh(pack, await tableOf(pack), 'variants', { candidates, count, seed });
}

/** Of one family after the other, in chance order, until one has something to ask. */
async function drillsOf(
	slot: DrillSlot,
	{ count, seed }: Wanted,
	{ known, tableOf, weigh }: DrawSources,
	before: readonly (readonly DrillItem[])[]
): Promise<DrillItem[]> {
	const taken = before.flatMap(([first]) => (first ? [first.generator] : []));
	for (const pack of shuffled(chance(seed, 'paper', 'drill families', slot.slot), [...known.values()])) {
		const items = await weigh(pack, await tableOf(pack), 'drills', { slot, count, seed, taken });
		if (items) return items;
	}
	throw new CannotBeDrawn(`No family in stock has enough to ask for drills of the kind "${slot.drill}".`);
}
