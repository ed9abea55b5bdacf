/** Nights of made-up learners: families of all areas, what they remember, and what they have met. */
import fc from 'fast-check';
import { areas, type Area } from '#shared/scenario/areas.ts';
import { curriculumFile, readCurriculum } from '#shared/scenario/curriculum.ts';
import { startOfDay } from '#shared/review/memory/learner-day.ts';
import type { Asked } from '#shared/review/drills/askable.ts';
import { faultsOf, type Night, type Played } from '#shared/review/round/night.ts';
import { planRound } from '#shared/review/round/plan-round.ts';
import type { Round, RoundItem } from '#shared/review/round/round.ts';
import { defaultScheduler, memoryAfter, remember } from '#shared/review/memory/schedule.ts';
import type { Review, Skill } from '#shared/review/skill.ts';
import { skillsOf, type Taught } from '#shared/review/skills.ts';
import { scenariosFolder, textsIn } from '$lib/server/packs/read-scenarios.ts';
import { anyRecall } from './any-log.ts';

export const curriculum = readCurriculum(textsIn(scenariosFolder()).find(({ name }) => name === curriculumFile)!).curriculum!;
export const zone = 'Europe/London';
const hour = 3_600_000;
/** Half past eight in the evening of a learner's day. */
export const evening = (day: number) => startOfDay(20_500 + day, zone) + 16.5 * hour;

const allAreas = Object.keys(areas) as Area[];
/** A family with a few faults in each area, only one in gas. */
export const family = (id: string, has: readonly Area[] = allAreas): Taught => ({
	family: { id, short: id },
	faults: has.flatMap((area) =>
		(area === 'gas' ? ['gas-1'] : [`${area}-1`, `${area}-2`, `${area}-3`]).map((fault) => ({ id: fault, area }))
	)
});
export const families = (count: number): Taught[] => Array.from({ length: count }, (_, index) => family(`family-${index}`));

/** One generator for each kind of drill that concerns a family, of any of these, and two of each that concerns none. */
export const generatorsFor = (taught: readonly Taught[]): Asked[] =>
	curriculum.drills.flatMap(({ id }): Asked[] =>
		['reading', 'next-check', 'ruled-out', 'sequence', 'terminals'].includes(id)
			? [{ id: `${id}-of-family`, drill: id, families: taught.map(({ family }) => family.id) }]
			: [1, 2].map((n) => ({ id: `${id}-${n}`, drill: id, families: null }))
	);

export interface Has {
	readonly taught?: readonly Taught[];
	readonly log?: readonly Review[];
	readonly played?: readonly Played[];
	readonly minutes?: number;
	readonly now?: number;
	readonly seed?: number;
}

export function nightOf({ taught = families(2), log = [], played = [], minutes = 20, now = evening(0), seed = 1 }: Has): Night {
	const scheduler = { ...defaultScheduler, zone };
	return {
		now,
		minutes,
		skills: skillsOf(curriculum, taught).skills,
		memories: [...remember(log, scheduler).values()],
		log,
		played,
		faults: faultsOf(taught as Parameters<typeof faultsOf>[0]),
		generators: generatorsFor(taught),
		cuts: curriculum.round,
		scheduler,
		seed
	};
}

/** What must not follow itself. */
export const kindOfItem = ({ skill }: Pick<RoundItem, 'skill'>): string => (skill.startsWith('drill/') ? skill : skill.split('/')[1]);

/** A log on the evenings before tonight of any of these skills. */
export const anyLogOf = (skills: readonly Skill[], maxLength = 60): fc.Arbitrary<Review[]> =>
	fc
		.array(
			fc.record({
				skill: fc.constantFrom(...skills.map(({ id }) => id)),
				ago: fc.integer({ min: 0, max: 60 }),
				recall: anyRecall,
				minutes: fc.integer({ min: 1, max: 15 })
			}),
			{ maxLength }
		)
		.map((lines) => lines.map(({ ago, ...line }) => ({ ...line, at: evening(-ago) - hour })).toSorted((a, b) => a.at - b.at));

/** Any night of any learner: nothing begun, little, much, long neglected. */
export const anyNight: fc.Arbitrary<Night> = fc
	.record({
		count: fc.integer({ min: 1, max: 3 }),
		minutes: fc.constantFrom(10, 20, 30),
		seed: fc.nat(),
		later: fc.integer({ min: 0, max: 30 })
	})
	.chain(({ count, minutes, seed, later }) => {
		const taught = families(count);
		return anyLogOf(skillsOf(curriculum, taught).skills).map((log) => nightOf({ taught, log, minutes, seed, now: evening(later) }));
	});

/** The next night's night after a round was played to its end. */
export function afterRound(
	night: Night,
	items: readonly RoundItem[],
	recallOf: (item: RoundItem) => Review['recall']
): Pick<Night, 'log' | 'memories' | 'played'> {
	const memories = new Map(night.memories.map((memory) => [memory.skill, memory]));
	const log = [...night.log];
	const played = [...night.played];
	let at = night.now;
	for (const item of items) {
		at += item.minutes * 60_000;
		const review: Review = { skill: item.skill, at, recall: recallOf(item), minutes: item.minutes };
		log.push(review);
		memories.set(item.skill, memoryAfter(memories.get(item.skill) ?? null, review, night.scheduler));
		played.push({
			skill: item.skill,
			at,
			seed: item.seed,
			what: item.kind === 'callout' ? item.fault : item.generator,
			family: item.family
		});
	}
	return { log, memories: [...memories.values()], played };
}

/** Holds for the round of any night. */
export function everyRound(holds: (night: Night, round: Round) => void): void {
	fc.assert(
		fc.property(anyNight, (night) => holds(night, planRound(night))),
		{ numRuns: 150 }
	);
}

export const total = (items: readonly Pick<RoundItem, 'minutes'>[]): number => items.reduce((sum, { minutes }) => sum + minutes, 0);
