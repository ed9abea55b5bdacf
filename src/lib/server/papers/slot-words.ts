/** What a place of a paper asks for, in words. */
import type { Slot } from '#shared/assessment/blueprint.ts';
import { areas } from '#shared/scenario/areas.ts';
import type { PaperStock } from './stock.ts';

/** `Tap-water coil in the exchanger: gas supply and metering`, `Sums of water`. What is no longer in stock is named by its id. */
export function slotWords(slot: Slot | Omit<Slot, 'slot'>, { families, drills }: Pick<PaperStock, 'families' | 'drills'>): string {
	if (slot.kind === 'drill') {
		const { drill } = slot as Extract<Slot, { kind: 'drill' }>;
		return drills.find(({ id }) => id === drill)?.name ?? drill;
	}
	const { family, area } = slot as Extract<Slot, { kind: 'callout' }>;
	const short = families.find(({ id }) => id === family)?.short ?? family;
	return `${short}: ${area === null ? 'any area' : areas[area].toLowerCase()}`;
}
