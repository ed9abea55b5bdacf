/** What is known of a learner and of what there is to play, on the night for which a round is planned. */
import type { Area } from '#shared/scenario/areas.ts';
import { isOfSums, type RoundCuts } from '#shared/scenario/curriculum.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Asked } from '../drills/askable.ts';
import type { Memory, Scheduler } from '../memory/memory.ts';
import type { Review, Skill, SkillId } from '../skill.ts';

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

/** What feels like more of the same: a kind, but for sums, which are all one. They follow each other only where nothing else is left. */
export const feelOf = (skill: Skill): string => (skill.kind === 'drill' && isOfSums(skill.drill) ? 'sums' : kindOf(skill));

/** Families that the learner has begun; where none is, the first. */
function begunFamilies({ skills, memories }: Pick<Night, 'skills' | 'memories'>): string[] {
	const begun = new Set(memories.map(({ skill }) => skill));
	const areas = skills.filter((skill) => skill.kind === 'area');
	const known = new Set(areas.filter(({ id }) => begun.has(id)).map(({ family }) => family));
	return known.size > 0 ? [...known] : areas.slice(0, 1).map(({ family }) => family);
}

/** What can be asked of a kind of drill on this night: each generator that can, with those of its families that the learner has begun. */
export function askedOf(drill: string, night: Pick<Night, 'generators' | 'skills' | 'memories'>): Asked[] {
	const begun = begunFamilies(night);
	return night.generators
		.filter((one) => one.drill === drill)
		.map((one) => ({ ...one, families: one.families && begun.filter((family) => one.families!.includes(family)) }))
		.filter(({ families }) => families === null || families.length > 0);
}

/** Whether there is anything to play for a skill. */
export function isPlayable(skill: Skill, night: Pick<Night, 'faults' | 'generators' | 'skills' | 'memories'>): boolean {
	if (skill.kind === 'area') return night.faults.some(({ family, area }) => family === skill.family && area === skill.area);
	return askedOf(skill.drill, night).length > 0;
}
