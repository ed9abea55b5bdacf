/** Where the variants of a paper hide the same fault in the same place, and why. */
import { slotsOf, type Blueprint } from '#shared/assessment/blueprint.ts';
import { faultsFor } from '#shared/assessment/candidates.ts';
import { sharingBySlot } from '#shared/assessment/spread.ts';
import type { Variant } from '#shared/assessment/variant.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { calloutsIn } from './drawing.ts';
import { slotWords } from './slot-words.ts';
import type { PaperStock } from './stock.ts';

export interface Sharing {
	/** Items that hide a fault which another variant hides in the same place. */
	readonly items: number;
	/** What the places of these ask for where the stock of today has fewer faults than there are variants, and how many it has. */
	readonly short: readonly { readonly says: string; readonly faults: number }[];
}

/** @returns null where there are no two variants, or no callout in them */
export function sharingOf(
	variants: readonly Variant[],
	blueprint: Blueprint,
	known: ReadonlyMap<string, Pack>,
	stock: PaperStock
): Sharing | null {
	const bySlot = sharingBySlot(variants.map(calloutsIn));
	if (variants.length < 2 || bySlot.length === 0) return null;
	const short = new Map<string, number>();
	for (const slot of slotsOf(blueprint)) {
		const pack = slot.kind === 'callout' && bySlot[slot.slot]! > 0 ? known.get(slot.family) : undefined;
		if (slot.kind !== 'callout' || !pack) continue;
		const faults = faultsFor(pack, slot).length;
		if (faults < variants.length) short.set(slotWords(slot, stock), faults);
	}
	return { items: bySlot.reduce((sum, items) => sum + items, 0), short: [...short].map(([says, faults]) => ({ says, faults })) };
}
