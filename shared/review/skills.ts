/** The skills that there are: of every family an area in which it has faults, and every kind of drill. */
import { areas, type Area } from '#shared/scenario/areas.ts';
import type { Curriculum } from '#shared/scenario/curriculum.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { AreaSkill, DrillSkill, Skill, SkillId } from './skill.ts';

/** A skill that was named and is not to be had, and why. */
export interface SkillProblem {
	readonly kind: 'unknown-family' | 'no-fault-in-area' | 'unknown-drill';
	readonly skill: SkillId;
	readonly says: string;
}

export interface Skills {
	/** Areas by family, then drills, each in the curriculum's order. */
	readonly skills: readonly Skill[];
	readonly problems: readonly SkillProblem[];
}

/** What of a pack makes its skills. */
export type Taught = {
	readonly family: Pick<Pack['family'], 'id' | 'short'>;
	readonly faults: readonly Pick<Pack['faults'][number], 'id' | 'area'>[];
};

/** @param area one of the trade's areas */
export const areaSkillId = (family: string, area: string): SkillId => `${family}/${area}`;
export const drillSkillId = (drill: string): SkillId => `drill/${drill}`;

/** @returns the skills of these packs, and whatever the curriculum says of families and areas that they do not have */
export function skillsOf(curriculum: Curriculum, packs: Iterable<Taught>): Skills {
	const taught = [...packs];
	const problems = Object.entries(curriculum.families).flatMap(([family, own]) => {
		const pack = taught.find((one) => one.family.id === family);
		return (Object.keys(own) as Area[]).flatMap((area) => problemOf(areaSkillId(family, area), pack, area) ?? []);
	});
	return { skills: [...taught.flatMap((pack) => areaSkills(curriculum, pack)), ...drillSkills(curriculum)], problems };
}

/**
 * Parts what is of skills that there are from what is not: of a log, of memories. A family may have been taken out since.
 * @returns the known in their order, and a problem for each unknown skill
 */
export function ofKnownSkills<T extends { readonly skill: SkillId }>(
	items: Iterable<T>,
	skills: readonly Skill[]
): { known: T[]; problems: SkillProblem[] } {
	const ids = new Set(skills.map(({ id }) => id));
	const families = new Set(skills.flatMap((skill) => (skill.kind === 'area' ? [skill.family] : [])));
	const known: T[] = [];
	const problems = new Map<SkillId, SkillProblem>();
	for (const item of items) {
		if (ids.has(item.skill)) known.push(item);
		else problems.set(item.skill, unknownSkill(item.skill, families));
	}
	return { known, problems: [...problems.values()] };
}

function areaSkills({ areas: common, families }: Curriculum, { family, faults }: Taught): AreaSkill[] {
	const had = new Set(faults.map(({ area }) => area));
	const own = families[family.id] ?? {};
	const afterOf = (area: Area): readonly Area[] => own[area]?.after ?? common[area].after;
	return (Object.keys(common) as Area[])
		.filter((area) => had.has(area))
		.map((area) => ({
			kind: 'area',
			id: areaSkillId(family.id, area),
			name: `${areas[area]}, ${family.short}`,
			family: family.id,
			area,
			after: [...nearest(area, afterOf, had)].map((earlier) => areaSkillId(family.id, earlier)),
			minutes: own[area]?.minutes ?? common[area].minutes
		}));
}

/** The areas before one that the family has; those before them in place of any that it has not. */
function nearest(area: Area, afterOf: (area: Area) => readonly Area[], had: ReadonlySet<Area>): Set<Area> {
	return new Set(afterOf(area).flatMap((earlier) => (had.has(earlier) ? [earlier] : [...nearest(earlier, afterOf, had)])));
}

function drillSkills({ drills }: Curriculum): DrillSkill[] {
	return drills.map(({ id, name, after, minutes }) => ({
		kind: 'drill',
		id: drillSkillId(id),
		name,
		drill: id,
		after: after.map(drillSkillId),
		minutes
	}));
}

function problemOf(skill: SkillId, pack: Taught | undefined, area: Area): SkillProblem | null {
	if (!pack) return { kind: 'unknown-family', skill, says: `there is no family for "${skill}"` };
	if (pack.faults.some((fault) => fault.area === area)) return null;
	return { kind: 'no-fault-in-area', skill, says: `the family has no fault in the area of "${skill}"` };
}

function unknownSkill(skill: SkillId, families: ReadonlySet<string>): SkillProblem {
	const [first] = skill.split('/');
	if (first === 'drill') return { kind: 'unknown-drill', skill, says: `there is no such kind of drill as "${skill}"` };
	return families.has(first)
		? { kind: 'no-fault-in-area', skill, says: `the family has no fault in the area of "${skill}"` }
		: { kind: 'unknown-family', skill, says: `there is no family for "${skill}"` };
}
