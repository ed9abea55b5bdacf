/** What a learner has met before, so that nothing comes again with the same numbers and other faults and questions come first. */
import { makeCallout } from '#shared/callout/make.ts';
import type { Generator } from '#shared/review/drills/drill.ts';
import type { Played } from '#shared/review/round/night.ts';
import { areaSkillId, drillSkillId } from '#shared/review/skills.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { attemptsIn } from '../database/attempts.ts';
import { drillsIn } from '../database/drills.ts';
import type { Database } from '../database/open.ts';
import type { Attempt } from '../database/schema.ts';
import { heldOf } from '../sittings/release.ts';

/** Earlier callouts are long forgotten. */
const mostCallouts = 200;

/** @param known  the packs of today; of families that are in none of them no account is taken */
export function playedIn(db: Database, known: ReadonlyMap<string, Pack>, generators: ReadonlyMap<string, Generator>) {
	const attempts = attemptsIn(db);
	const drills = drillsIn(db);

	/** What the seeds of older rows drew, which was not kept then. Making a callout takes some milliseconds: done once and written back. */
	function drawnBefore(rows: readonly Attempt[]): ReadonlyMap<string, string> {
		const made = rows.flatMap(({ id, family, packHash, seed, fault, drawn }) => {
			const pack = known.get(family);
			// Of an earlier pack the same seed may draw another.
			if (fault !== null || drawn !== null || packHash !== pack?.hash) return [];
			const found = makeCallout(pack, seed).fault;
			return found ? [[id, found.id] as const] : [];
		});
		const faults = new Map(made);
		if (faults.size > 0) attempts.keepDrawn(faults);
		return faults;
	}

	function calloutsOf(learnerId: string, held: ReadonlySet<string>): Played[] {
		const rows = attempts.latest(learnerId, mostCallouts).filter(({ id }) => !held.has(id));
		const before = drawnBefore(rows);
		return rows.flatMap(({ id, family, seed, created, ...row }): Played[] => {
			const hidden = row.fault ?? row.drawn ?? before.get(id);
			const fault = known.get(family)?.faults.find((one) => one.id === hidden);
			return fault ? [{ skill: areaSkillId(family, fault.area), at: created.getTime(), seed, what: fault.id, family }] : [];
		});
	}

	/** @param now [ms since 1970]: what must not be told then is as if it had not been played, or the next round would tell of it */
	return (learnerId: string, now: number): Played[] => {
		const held = heldOf(db, learnerId, now);
		const asked = drills.asked(learnerId).filter(({ id }) => !held.drills.has(id));
		return [
			...calloutsOf(learnerId, held.attempts),
			...asked.flatMap(({ generator, family, seed, created }): Played[] => {
				const kind = generators.get(generator)?.drill;
				return kind === undefined ? [] : [{ skill: drillSkillId(kind), at: created.getTime(), seed, what: generator, family }];
			})
		];
	};
}
