/** What stands for a skill tonight: a hidden fault or a generator not met last time where there is another, and numbers never met before. */
import { chance, mostSeed, type Chance } from '#shared/quantity/random.ts';
import { askedOf, type Night, type Played } from './night.ts';
import type { RoundItem } from './round.ts';
import type { AreaSkill, DrillSkill, Skill } from '../skill.ts';

export type Wanted = Pick<RoundItem, 'why' | 'minutes'> & { readonly skill: Skill };

/** @returns the items in the order of what is wanted */
export function whatToPlay(wanted: readonly Wanted[], night: Night): RoundItem[] {
	const met: Played[] = night.played.toSorted((a, b) => a.at - b.at);
	const seeds = new Set(met.map(({ seed }) => seed));
	return wanted.map(({ skill, why, minutes }, place) => {
		const draw = chance(night.seed, 'round', place);
		const own = met.filter((played) => played.skill === skill.id);
		const seed = unmet(draw, seeds);
		seeds.add(seed);
		const chosen = skill.kind === 'area' ? calloutFor(skill, night, own, draw) : drillFor(skill, night, own, draw);
		met.push({
			skill: skill.id,
			at: night.now,
			seed,
			what: chosen.kind === 'callout' ? chosen.fault : chosen.generator,
			family: chosen.family
		});
		return { skill: skill.id, why, minutes, seed, ...chosen };
	});
}

function calloutFor({ family, area }: AreaSkill, { faults }: Night, own: readonly Played[], draw: Chance) {
	const hideable = faults.filter((fault) => fault.family === family && fault.area === area).map(({ id }) => id);
	const met = own.map(({ what }) => what);
	return { kind: 'callout', family, fault: leastMet(hideable, met, draw) } as const;
}

function drillFor({ drill }: DrillSkill, night: Night, own: readonly Played[], draw: Chance) {
	const usable = askedOf(drill, night);
	const generator = leastMet(
		usable.map(({ id }) => id),
		own.map(({ what }) => what),
		draw
	);
	const { families } = usable.find(({ id }) => id === generator)!;
	const familiesMet = own.flatMap(({ family }) => family ?? []);
	return { kind: 'drill', generator, family: families && leastMet(families, familiesMet, draw) } as const;
}

/** One of those met least often, and never the one met last where there is another. */
function leastMet(ids: readonly string[], met: readonly string[], draw: Chance): string {
	const last = met.findLast((id) => ids.includes(id));
	const others = ids.length > 1 ? ids.filter((id) => id !== last) : ids;
	const times = (id: string) => met.filter((other) => other === id).length;
	const fewest = Math.min(...others.map(times));
	return draw.pick(others.filter((id) => times(id) === fewest));
}

function unmet(draw: Chance, seeds: ReadonlySet<number>): number {
	for (;;) {
		const seed = draw.whole(0, mostSeed);
		if (!seeds.has(seed)) return seed;
	}
}
