/** The skills that there are: of every family an area in which it has faults, and every kind of drill. */
import { areas, type Area } from '#shared/scenario/areas.ts';
import type { Curriculum } from '#shared/scenario/curriculum.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { AreaSkill, DrillSkill, Skill, SkillId } from './skill.ts';

/** A skill that was named and is not to be had, and why. */
export interface SkillProblem {
	readonly kind: 'unknown-family' | 'no-fault-in-area';
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

export const areaSkillId = (family: string, area: Area): SkillId => `${family}/${area}`;
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
