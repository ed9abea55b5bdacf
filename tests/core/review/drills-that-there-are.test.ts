import { describe, expect, it } from 'vitest';
import { askableOf, type FamilyGround } from '#shared/review/drills/askable.ts';
import { generators } from '#shared/review/drills/index.ts';
import { defaultScheduler, remember } from '#shared/review/memory/schedule.ts';
import { faultsOf, type Night } from '#shared/review/round/night.ts';
import { planRound } from '#shared/review/round/plan-round.ts';
import { areaSkillId, skillsOf } from '#shared/review/skills.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { curriculum, evening, zone } from './nights.ts';

const known = [...packs().values()];
const scheduler = { ...defaultScheduler, zone };
const grounds = await Promise.all(known.map(async (pack): Promise<FamilyGround> => ({ pack, table: await evidenceFor(pack) })));

/** A night of somebody who knows every drill, and of the families just this one. */
function nightWith(family: string, seed: number, given: readonly FamilyGround[]): Night {
	const { skills } = skillsOf(curriculum, known);
	const first = known.find((pack) => pack.family.id === family)!.faults[0]!;
	const shown = [areaSkillId(family, first.area), ...skills.flatMap(({ kind, id }) => (kind === 'drill' ? [id] : []))];
	const log = shown.map((skill) => ({ skill, at: evening(-9), recall: 'lost' as const, minutes: 1 }));
	return {
		now: evening(0),
		minutes: 30,
		skills,
		memories: [...remember(log, scheduler).values()],
		log,
		played: [],
		faults: faultsOf(known),
		generators: askableOf(generators, given),
		cuts: curriculum.round,
		scheduler,
		seed
	};
}

/** The generators that rounds of many nights draw for a family, each with a seed. */
function drawnFor(family: string, given: readonly FamilyGround[]): Map<string, number> {
	const drawn = new Map<string, number>();
	for (let seed = 0; seed < 120; seed++) {
		for (const item of planRound(nightWith(family, seed, given)).items) {
			if (item.kind !== 'drill' || item.family === null) continue;
			expect(item.family).toBe(family);
			drawn.set(item.generator, item.seed);
		}
	}
	return drawn;
}

describe.each(grounds.map((ground) => [ground.pack.family.id, ground] as const))('rounds on %s', (family, ground) => {
	const ofFamilies = generators.filter(({ needs }) => needs !== 'nothing');
	const offering = ofFamilies.filter(({ offers }) => offers?.(ground) ?? true).map(({ id }) => id);

	it('draw every generator that has something to ask there, and no other', () => {
		const drawn = drawnFor(family, grounds);
		expect([...drawn.keys()].toSorted()).toEqual(offering.toSorted());
		for (const [id, seed] of drawn) expect(generators.find((one) => one.id === id)!.make(ground, seed).question.family, id).toBe(family);
	});

	it('leave out what weighs readings while the table of this family is being made, whether or not the others are there', () => {
		const without = grounds.map((one) => (one === ground ? { ...one, table: null } : one));
		const only = grounds.map((one) => (one === ground ? one : { ...one, table: null }));
		const weighing = ofFamilies.filter(({ needs }) => needs === 'evidence').map(({ id }) => id);
		expect([...drawnFor(family, without).keys()].toSorted()).toEqual(offering.filter((id) => !weighing.includes(id)).toSorted());
		expect([...drawnFor(family, only).keys()].toSorted()).toEqual(offering.toSorted());
	});
});

it('a generator that has nothing to ask anywhere waits for nothing', () => {
	const bare = grounds.map(({ pack }) => ({ pack: { ...pack, family: { ...pack.family, sequence: [] } }, table: null }));
	for (const one of askableOf(generators, bare)) {
		if (one.drill === 'sequence') expect(one).toMatchObject({ families: [], waiting: [] });
		if (one.drill === 'reading') expect(one).toMatchObject({ families: [], waiting: known.map(({ family }) => family.id) });
	}
});
