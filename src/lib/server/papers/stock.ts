/** What a blueprint can ask for here: families with their areas, and kinds of drill, each with what it is thought to take. */
import { areas, type Area } from '#shared/scenario/areas.ts';
import type { DrillKind } from '#shared/scenario/curriculum.ts';
import { hasToAsk } from '#shared/review/drills/askable.ts';
import type { Generator } from '#shared/review/drills/drill.ts';
import type { Skill } from '#shared/review/skill.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { calloutField, drillField } from '../../papers/fields.ts';

export interface PaperStock {
	readonly families: readonly { readonly id: string; readonly short: string; readonly areas: readonly Area[] }[];
	/** Those that a family in stock has, in the order of the curriculum. */
	readonly areas: readonly { readonly id: Area; readonly name: string }[];
	readonly drills: readonly { readonly id: DrillKind; readonly name: string }[];
	/** By the name of the field that asks for it [min]. */
	readonly minutesOf: Readonly<Record<string, number>>;
}

export function stockOf(known: ReadonlyMap<string, Pack>, skills: readonly Skill[], generators: Iterable<Generator>): PaperStock {
	const places = skills.filter((skill) => skill.kind === 'area');
	const kinds = new Set([...generators].filter((one) => canAsk(one, known)).map(({ drill }) => drill));
	const drills = skills.filter((skill) => skill.kind === 'drill' && kinds.has(skill.drill)) as Extract<Skill, { kind: 'drill' }>[];
	const families = [...known.values()].map(({ family }) => {
		const own = places.filter((place) => place.family === family.id);
		return { id: family.id, short: family.short, areas: own.map(({ area }) => area), minutes: own.map(({ minutes }) => minutes) };
	});
	return {
		families: families.map(({ minutes, ...family }) => family),
		areas: [...new Set(places.map(({ area }) => area))].map((id) => ({ id, name: areas[id] })),
		drills: drills.map(({ drill, name }) => ({ id: drill as DrillKind, name })),
		minutesOf: Object.fromEntries([
			...families.map(({ id, minutes }) => [calloutField(id, null), meanOf(minutes)]),
			...places.map(({ family, area, minutes }) => [calloutField(family, area), minutes]),
			...drills.map(({ drill, minutes }) => [drillField(drill), minutes])
		])
	};
}

const canAsk = (generator: Generator, known: ReadonlyMap<string, Pack>): boolean =>
	generator.needs === 'nothing' || [...known.values()].some((pack) => hasToAsk(generator, pack));

const meanOf = (figures: readonly number[]): number => figures.reduce((sum, one) => sum + one, 0) / Math.max(1, figures.length);
