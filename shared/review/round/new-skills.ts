/**
 * Which skills are begun tonight, and whether any are. New work is throttled: where it comes faster than what is known can be kept, the
 * backlog grows without end. So nothing is begun unless minutes are spare after all that is due, nor while keeping up what is known already
 * takes most of a round's minutes each day. All cut points are judgements of ours, in the curriculum.
 * @see Reddy, Labutov, Banerjee and Joachims 2016, on the collapse of a queue of reviews beyond a critical rate of new ones (direction only)
 */
import { dayOf } from '../memory/learner-day.ts';
import type { Memory } from '../memory/memory.ts';
import type { Night } from './night.ts';
import { isDue } from '../memory/schedule.ts';
import type { AreaSkill, Skill, SkillId } from '../skill.ts';

/** A known skill with what practising it takes. */
export interface Kept {
	readonly memory: Memory;
	readonly minutes: number;
}

/** Minutes a day that it takes to bring each back when it falls due, if it always returns after its present interval. */
export function minutesADay(kept: readonly Kept[], zone: string): number {
	return kept.reduce((sum, { memory, minutes }) => sum + minutes / Math.max(1, dayOf(memory.due, zone) - dayOf(memory.last, zone)), 0);
}

/** How many skills may be begun tonight, before it is looked at whether they fit. */
export function mostNew({ minutes, cuts, scheduler, now }: Night, kept: readonly Kept[]): number {
	const due = kept.reduce((sum, one) => sum + (isDue(one.memory, now) ? one.minutes : 0), 0);
	if (due >= minutes || minutesADay(kept, scheduler.zone) > cuts.busy * minutes) return 0;
	return Math.max(1, Math.floor(minutes / cuts.minutesPerNew));
}

/**
 * Skills that can be begun, in the order in which they are to be: areas and drills in turn, that first of which fewer are begun, and each
 * only once all before it are begun. Areas near the root of any family come first.
 * @param playable in the curriculum's order
 * @param begun    every skill ever shown
 */
export function openSkills(playable: readonly Skill[], begun: ReadonlySet<SkillId>, { familyAfter }: Night['cuts']): Skill[] {
	const untried = playable.filter((skill) => !begun.has(skill.id) && skill.after.every((id) => begun.has(id)));
	const families = openFamilies(playable, begun, familyAfter);
	const place = new Map([...byFamily(playable).values()].flatMap((list) => list.map(({ id }, index) => [id, index] as const)));
	const areas = untried
		.filter(isArea)
		.filter(({ family }) => families.has(family))
		.sort((a, b) => place.get(a.id)! - place.get(b.id)!);
	const drills = untried.filter(({ kind }) => kind === 'drill');
	const begunOf = (kind: Skill['kind']) => playable.filter((skill) => skill.kind === kind && begun.has(skill.id)).length;
	return begunOf('drill') < begunOf('area') ? inTurn(drills, areas) : inTurn(areas, drills);
}

function inTurn(first: readonly Skill[], second: readonly Skill[]): Skill[] {
	const most = Math.max(first.length, second.length);
	return Array.from({ length: most }, (_, index) => [...first.slice(index, index + 1), ...second.slice(index, index + 1)]).flat();
}

const isArea = (skill: Skill): skill is AreaSkill => skill.kind === 'area';

/** The families begun, and all others once enough of those is; the first family where none is begun. */
function openFamilies(playable: readonly Skill[], begun: ReadonlySet<SkillId>, familyAfter: number): Set<string> {
	const counts = [...byFamily(playable)].map(([family, list]) => ({
		family,
		all: list.length,
		begun: list.filter(({ id }) => begun.has(id)).length
	}));
	const started = counts.filter((one) => one.begun > 0);
	if (started.length === 0) return new Set(counts.slice(0, 1).map(({ family }) => family));
	const isEnough = started.every((one) => one.begun >= Math.min(familyAfter, one.all));
	return new Set((isEnough ? counts : started).map(({ family }) => family));
}

function byFamily(skills: readonly Skill[]): Map<string, AreaSkill[]> {
	const families = new Map<string, AreaSkill[]>();
	for (const skill of skills.filter(isArea)) families.set(skill.family, [...(families.get(skill.family) ?? []), skill]);
	return families;
}
