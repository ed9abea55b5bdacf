/** What is known of a learner and of what there is to play, on the night for which a round is planned. */
import type { Area } from '#shared/scenario/areas.ts';
import type { RoundCuts } from '#shared/scenario/curriculum.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Generator } from './drills/drill.ts';
import type { Memory, Scheduler } from './memory.ts';
import type { Review, Skill, SkillId } from './skill.ts';

/** A callout or drill that the learner has met before. */
export interface Played {
	readonly skill: SkillId;
	/** [ms since 1970] */
	readonly at: number;
	readonly seed: number;
	/** Id of the fault, or of the generator. */
	readonly what: string;
	/** Null for a drill that concerns none. */
	readonly family: string | null;
}

/** A fault that there is to hide. */
export interface Hideable {
	readonly family: string;
	readonly area: Area;
	readonly id: string;
}

export type Asked = Pick<Generator, 'id' | 'drill' | 'needs'>;

export interface Night {
	/** [ms since 1970] */
	readonly now: number;
	/** Minutes that the learner has, > 0. */
	readonly minutes: number;
	/** In the curriculum's order. */
	readonly skills: readonly Skill[];
	/** Of skills that are not among those above nothing is planned. */
	readonly memories: readonly Memory[];
	/** Of the learner; only its minutes are looked at. */
	readonly log: readonly Review[];
	readonly played: readonly Played[];
	readonly faults: readonly Hideable[];
	readonly generators: readonly Asked[];
	readonly cuts: RoundCuts;
	readonly scheduler: Scheduler;
	/** The same night and seed give the same round. */
	readonly seed: number;
}

/** Every fault of these packs. */
export function faultsOf(packs: Iterable<Pick<Pack, 'family' | 'faults'>>): Hideable[] {
	return [...packs].flatMap(({ family, faults }) => faults.map(({ id, area }) => ({ family: family.id, area, id })));
}

/** What must not follow itself in a round: a fault area, whatever the family, or a kind of drill. */
export const kindOf = (skill: Skill): string => (skill.kind === 'area' ? skill.area : `drill/${skill.drill}`);

/** Whether there is anything to play for a skill. */
export function isPlayable(skill: Skill, { faults, generators, skills }: Pick<Night, 'faults' | 'generators' | 'skills'>): boolean {
	if (skill.kind === 'area') return faults.some(({ family, area }) => family === skill.family && area === skill.area);
	const anyFamily = skills.some(({ kind }) => kind === 'area');
	return generators.some(({ drill, needs }) => drill === skill.drill && (needs === 'nothing' || anyFamily));
}
