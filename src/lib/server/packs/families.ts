/** The appliance families in stock, as a reader may see them before any callout. */
import type { Demand } from '#shared/appliance/model.ts';
import type { Drawing } from '#shared/scenario/schema.ts';
import { packs } from './packs.ts';

export interface FamilySummary {
	readonly id: string;
	readonly name: string;
	readonly short: string;
	readonly says: string;
	readonly faults: number;
	readonly checks: number;
	readonly parts: number;
	/** The local rules in force, by name. */
	readonly rules: string;
}

export interface FamilyPage extends FamilySummary {
	readonly drawing: Drawing;
	readonly sequence: readonly { readonly id: string; readonly demand: Demand; readonly does: string }[];
	readonly demands: readonly { readonly id: Demand; readonly name: string }[];
	readonly limits: readonly { readonly says: string; readonly value: number; readonly unit: string; readonly source: string }[];
}

export function familiesInStock(): FamilySummary[] {
	return [...packs().values()].map(({ family: { id, name, short, says }, faults, checks, parts, rules }) => ({
		id,
		name,
		short,
		says,
		faults: faults.length,
		checks: checks.length,
		parts: parts.length,
		rules: rules.name
	}));
}

/** @returns null where no such family is in stock */
export function familyPage(id: string): FamilyPage | null {
	const pack = packs().get(id);
	const summary = familiesInStock().find((family) => family.id === id);
	if (!pack || !summary) return null;
	const { sequence, demands } = pack.family;
	return { ...summary, drawing: pack.drawing, sequence, demands, limits: Object.values(pack.rules.limits) };
}
