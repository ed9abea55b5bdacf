/** What a learner has met before, so that nothing comes again with the same numbers and other faults and questions come first. */
import { makeCallout } from '#shared/callout/make.ts';
import type { Generator } from '#shared/review/drills/drill.ts';
import type { Played } from '#shared/review/night.ts';
import { areaSkillId, drillSkillId } from '#shared/review/skills.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { attemptsIn } from '../database/attempts.ts';
import { drillsIn } from '../database/drills.ts';
import type { Database } from '../database/open.ts';
import type { Attempt } from '../database/schema.ts';
import { Recent } from '../recent.ts';

/** Earlier callouts are long forgotten. */
const mostCallouts = 200;

/** @param known  the packs of today; what was made from others is of no account */
export function playedIn(db: Database, known: ReadonlyMap<string, Pack>, generators: ReadonlyMap<string, Generator>) {
	const attempts = attemptsIn(db);
	const drills = drillsIn(db);
	const drawn = new Recent<string>(1000);

	/** The fault that a seed drew; the making of a callout takes some milliseconds. */
	function faultOf({ id, fault, seed, packHash }: Attempt, pack: Pack): string | undefined {
		if (fault !== null) return fault;
		if (packHash !== pack.hash) return undefined;
		let found = drawn.get(id);
		if (found === undefined) {
			found = makeCallout(pack, seed).fault!.id;
			drawn.set(id, found);
		}
		return found;
	}

	function callout(attempt: Attempt): Played[] {
		const { family, seed, created } = attempt;
		const pack = known.get(family);
		const hidden = pack && faultOf(attempt, pack);
		const fault = pack?.faults.find(({ id }) => id === hidden);
		return fault ? [{ skill: areaSkillId(family, fault.area), at: created.getTime(), seed, what: fault.id, family }] : [];
	}

	return (learnerId: string): Played[] => [
		...attempts.latest(learnerId, mostCallouts).flatMap(callout),
		...drills.asked(learnerId).flatMap(({ generator, family, seed, created }): Played[] => {
			const kind = generators.get(generator)?.drill;
			return kind === undefined ? [] : [{ skill: drillSkillId(kind), at: created.getTime(), seed, what: generator, family }];
		})
	];
}
