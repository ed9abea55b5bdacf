/** What the items of a paper are called on a sheet. */
import { areas } from '#shared/scenario/areas.ts';
import type { VariantItem } from '#shared/assessment/variant.ts';
import { curriculum } from '../packs/curriculum.ts';
import { packs } from '../packs/packs.ts';

/** Of a family that is no longer in stock, and of a kind of drill that is none any more, the id itself. */
export function itemName(item: VariantItem): string {
	if (item.kind === 'callout') return `${packs().get(item.family)?.family.short ?? item.family}: ${areas[item.area].toLowerCase()}`;
	return `Drill: ${(curriculum().drills.find(({ id }) => id === item.drill)?.name ?? item.drill).toLowerCase()}`;
}
