/**
 * What families have in common data for: households, complaints and rules are written once, and a family takes of them what it can bear.
 * A name that no family in stock knows is a slip; one that only another family knows is left to that family.
 */
import type { ApplianceModel } from '#shared/appliance/model.ts';
import type { Complaint, FamilyData } from './schema.ts';

/** The names that the models in stock know, all together. */
export interface Vocabulary {
	readonly parameters: ReadonlySet<string>;
	readonly quantities: ReadonlySet<string>;
}

export function vocabularyOf(models: readonly ApplianceModel[]): Vocabulary {
	return {
		parameters: new Set(models.flatMap(({ parameters }) => parameters.map(({ key }) => key))),
		quantities: new Set(models.flatMap(({ quantities }) => quantities.map(({ key }) => key)))
	};
}

/** Whether a family can give rise to a complaint, and prove it cured: it has every demand and every quantity that the complaint names. */
export function canBeComplainedOf({ when, proves }: Complaint, family: FamilyData, model: ApplianceModel): boolean {
	const has = (demand: string) => family.demands.some(({ id }) => id === demand);
	const reads = (quantity: string) => model.quantities.some(({ key }) => key === quantity);
	return has(proves.demand) && when.every(({ demand, quantity }) => has(demand) && reads(quantity));
}
