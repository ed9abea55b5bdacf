/** Makes packs from the texts of `scenarios/`: parsed, held against the family's model and against each other, and hashed. */
import { z } from 'zod';
import type { ApplianceModel, Demand, Parameters } from '#shared/appliance/model.ts';
import { contentHash } from '#shared/quantity/hash.ts';
import { applyFault } from './apply-fault.ts';
import { crossCheck } from './cross-check.ts';
import { canBeComplainedOf, vocabularyOf, type Vocabulary } from './in-common.ts';
import type { Pack, Problem, Remedy } from './pack.ts';
import { readScenarios, shapes, type Sources } from './read.ts';
import { part, remedyKinds, type FamilyData, type Fault } from './schema.ts';
import type { Text } from './sheet.ts';

export interface PacksMade {
	/** By family id; a family with any problem has none. */
	readonly packs: ReadonlyMap<string, Pack>;
	readonly problems: readonly Problem[];
}

/**
 * @param texts  every YAML file of `scenarios/`
 * @param models the families' code, by model id
 */
export function makePacks(texts: readonly Text[], models: Readonly<Record<string, ApplianceModel>>): PacksMade {
	const { families, problems: unread } = readScenarios(texts);
	const problems = [...unread];
	const packs = new Map<string, Pack>();
	const known = vocabularyOf(Object.values(models));
	for (const sources of families.values()) {
		const model = models[sources.family.value.model];
		const made = model ? makePack(sources, model, known) : { problems: [noModel(sources, models)] };
		if ('pack' in made) packs.set(made.pack.family.id, made.pack);
		else problems.push(...made.problems);
	}
	return { packs, problems };
}

/**
 * @param known what the models in stock know
 * @returns the pack, or every reference in its data that leads nowhere
 */
function makePack(
	sources: Sources,
	model: ApplianceModel,
	known: Vocabulary
): { readonly pack: Pack } | { readonly problems: readonly Problem[] } {
	const { parts, homes } = sources;
	const remedies = [
		...parts.value.parts.map(fitting),
		...parts.value.remedies.map((remedy) => ({ ...remedy, price: { from: remedy.price, to: remedy.price } }))
	];
	const problems = crossCheck(sources, model, remedies, known);
	if (problems.length > 0) return { problems };

	const content = {
		schema: 1 as const,
		family: sources.family.value,
		drawing: sources.drawing.value,
		faults: sources.faults.value,
		checks: sources.checks.value,
		instruments: sources.instruments.value,
		parts: parts.value.parts,
		remedies,
		households: homes.value.households,
		facts: homes.value.facts,
		complaints: sources.complaints.value.filter((complaint) => canBeComplainedOf(complaint, sources.family.value, model)),
		rules: sources.rules.value
	};
	return { pack: packOf(content, model) };
}

/** The content of a pack as it is kept. */
const keptContent = z.strictObject({
	schema: z.literal(1),
	family: shapes.family,
	drawing: shapes.drawing,
	faults: shapes.faults,
	checks: shapes.checks,
	instruments: shapes.instruments,
	parts: shapes.parts.shape.parts,
	remedies: z.array(part.extend({ kind: z.enum(remedyKinds), part: z.string().optional(), caution: z.string().optional() })),
	households: shapes.homes.shape.households,
	facts: shapes.homes.shape.facts,
	complaints: shapes.complaints,
	rules: shapes.rules
});
type Content = Omit<Pack, 'hash' | 'model' | 'advice'>;

/**
 * A pack made again from the data of one, as JSON brings it back. Its hash is worked out anew: it is the hash of the kept pack only where
 * the data and what today's model makes of it are the same.
 * @returns null where the data does not have today's shape, or its model is gone
 */
export function packAgain(kept: unknown, models: Readonly<Record<string, ApplianceModel>>): Pack | null {
	if (typeof kept !== 'object' || kept === null) return null;
	const { hash, advice, ...data } = kept as Record<string, unknown>;
	const parsed = keptContent.safeParse(data);
	const model = parsed.success ? models[parsed.data.family.model] : undefined;
	if (!parsed.data || !model) return null;
	try {
		return packOf(parsed.data, model);
	} catch {
		// The model cannot run on parameters of its earlier self.
		return null;
	}
}

function packOf(content: Content, model: ApplianceModel): Pack {
	const hash = contentHash({ ...content, behaviour: behaviourOf(model, content.family, content.faults) });
	return { ...content, hash, model, advice: content.rules.advice };
}

/** Fitting a part new is a remedy like any other. */
function fitting(part: Sources['parts']['value']['parts'][number]): Remedy {
	return { ...part, id: `fit-${part.id}`, name: `Fit a new ${lowerFirst(part.name)}`, kind: 'fit', part: part.id };
}

function lowerFirst(name: string): string {
	return /^[A-Z][a-z]/.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
}

/**
 * What the nominal machine does, healthy under every demand and with each fault at its worst, so that the hash changes when the physics
 * does and not only when the data does. To four figures: engines may differ in the last bits of a logarithm.
 */
function behaviourOf(model: ApplianceModel, family: FamilyData, faults: readonly Fault[]): unknown {
	const sound: Parameters = Object.fromEntries(Object.entries(family.parameters).map(([key, { nominal }]) => [key, nominal]));
	const figures = (machine: Parameters, demand: Demand): string[] =>
		Object.values(model.settle(machine, demand)).map((value) => value.toPrecision(4));
	const demands = family.demands.map(({ id }) => id);
	return [
		demands.map((demand) => figures(sound, demand)),
		faults.map((fault) => figures(applyFault(sound, fault, fault.severity.to), demands.includes('tap') ? 'tap' : demands[0]))
	];
}

function noModel(sources: Sources, models: Readonly<Record<string, ApplianceModel>>): Problem {
	const { family } = sources;
	return {
		file: family.file,
		line: family.lineOf(['model']),
		key: 'model',
		says: `expected one of ${Object.keys(models).join(', ')}; came "${family.value.model}"`
	};
}
