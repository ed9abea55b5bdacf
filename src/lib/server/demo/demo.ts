/**
 * What a new server shows before anybody has used it: example visits, and an invented training centre with two cohorts, months of practice
 * and a paper that was sat. Made once a database; one command takes all of it away, and it does not come back.
 */
import { randomUUID } from 'node:crypto';
import { and, eq, notExists } from 'drizzle-orm';
import { hash32 } from '#shared/quantity/hash32.ts';
import { areaSkillId, skillsOf } from '#shared/review/skills.ts';
import type { Curriculum } from '#shared/scenario/curriculum.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { addLearner } from '../accounts/index.ts';
import { appendAudit } from '../audit/audit.ts';
import type { Callouts } from '../callouts/callouts.ts';
import { inventedLearner } from '../callouts/invented-learner.ts';
import type { Database } from '../database/open.ts';
import { auditEntry, cohort, learner, member, paper, review } from '../database/schema.ts';
import { drawVariants, type DrawSources } from '../papers/draw-variants.ts';
import { inventedCohorts, inventedPaper, type InventedCohort } from './centre.ts';
import { playExamples } from './example-visits.ts';
import { moderatePaper } from './moderated-paper.ts';
import { practisedLog } from './practised.ts';
import { sitPaper } from './sat-paper.ts';

const dayMs = 86_400_000;
const seed = 2026;

/** How much is made. */
export const extents = ['full', 'visits', 'none'] as const;
export type Extent = (typeof extents)[number];

export interface DemoParts {
	readonly db: Database;
	readonly callouts: Callouts;
	readonly known: ReadonlyMap<string, Pack>;
	readonly curriculum: Curriculum;
}

/** Whether a demo was made in this database, or taken away. */
const isSettled = (db: Database): boolean =>
	inventedLearner(db) !== undefined || db.select().from(auditEntry).where(eq(auditEntry.kind, 'demo-cleared')).limit(1).get() !== undefined;

/**
 * Example visits and the invented cohorts with their practice; the paper follows when it can be drawn.
 * @param extent  of `visits` the cohorts are left out, of `none` everything
 * @param now     [ms since 1970]
 */
export function seedDemo({ db, callouts, known, curriculum }: DemoParts, extent: Extent = 'full', now = Date.now()): void {
	if (extent === 'none') return;
	if (isSettled(db)) return;
	db.transaction(
		() => {
			const { id } = addLearner({ guest: false, invented: true }, db);
			for (const pack of known.values()) playExamples(callouts, id, pack);
			const { skills } = skillsOf(curriculum, known.values());
			for (const one of extent === 'full' ? inventedCohorts : []) addCohort(one);

			function addCohort({ name, names, weeks, weak }: InventedCohort): void {
				const began = now - weeks * 7 * dayMs;
				const own = { id: randomUUID(), name, invented: true, code: null, created: new Date(began), archived: null };
				db.insert(cohort).values(own).run();
				const weakSkills = new Set([...known.keys()].flatMap((family) => weak.map((area) => areaSkillId(family, area))));
				for (const [index, called] of names.entries()) {
					const { id: whose } = addLearner({ guest: false, invented: true }, db);
					const joined = new Date(began);
					const extraPercent = index === 3 ? 25 : 0;
					db.insert(member)
						.values({ id: randomUUID(), cohort: own.id, name: called, learner: whose, extraPercent, created: joined, joined })
						.run();
					const practised = practisedLog({ seed, name: called, days: weeks * 7, weak: weakSkills }, skills, now);
					for (const line of practised)
						db.insert(review)
							.values({ ...line, learner: whose, at: new Date(line.at) })
							.run();
				}
			}
		},
		{ behavior: 'immediate' }
	);
}

/**
 * Has the first invented cohort sit its paper, where it has not: in the background, since variants are drawn for it.
 * @param mark  marks a closed sitting
 * @throws what the drawing failed with
 */
export async function sitDemoPaper(
	{ db, callouts, known }: DemoParts,
	sources: DrawSources,
	mark: (sittingId: string) => Promise<void>,
	now = Date.now()
): Promise<void> {
	const whose = unsat(db);
	const pack = [...known.values()][0];
	if (!whose || !pack) return;
	const wanted = {
		blueprint: inventedPaper.blueprintOf(pack.family.id),
		count: inventedPaper.variants,
		seed: hash32(pack.hash, seed) >>> 1
	};
	const variants = await drawVariants(wanted, sources, () => undefined);
	// The server may have stopped, or the demo have been taken away, meanwhile.
	if (!db.$client.open || unsat(db)?.id !== whose.id) return;
	const sat = sitPaper(whose.id, variants, { db, callouts, pack, seed }, now);
	await Promise.all(sat.sittings.map(mark));
	if (db.$client.open && isThere(db, sat.paper)) moderatePaper(db, sat.paper, now);
}

const isThere = (db: Database, id: string): boolean => db.select().from(paper).where(eq(paper.id, id)).get() !== undefined;

/** The invented cohort that has no paper yet, where its register was filled: the first of them. */
function unsat(db: Database): { readonly id: string } | undefined {
	const [first] = inventedCohorts;
	const none = notExists(db.select().from(paper).where(eq(paper.cohort, cohort.id)));
	return db
		.select({ id: cohort.id })
		.from(cohort)
		.where(and(eq(cohort.invented, true), eq(cohort.name, first!.name), none))
		.get();
}

export interface Cleared {
	readonly learners: number;
	readonly cohorts: number;
}

/** Takes all that was invented away, for good. @param now [ms since 1970] */
export function clearDemo(db: Database, now = Date.now()): Cleared {
	return db.transaction(
		() => {
			// Papers first: what was played in a sitting is not deleted while the sitting names it.
			const invented = db.select({ id: cohort.id }).from(cohort).where(eq(cohort.invented, true)).all();
			for (const { id } of invented) db.delete(paper).where(eq(paper.cohort, id)).run();
			db.delete(cohort).where(eq(cohort.invented, true)).run();
			const learners = db.delete(learner).where(eq(learner.invented, true)).run().changes;
			const cleared = { learners, cohorts: invented.length };
			appendAudit(db, { at: now, by: null, cohort: null, kind: 'demo-cleared', subject: 'demo', content: cleared });
			return cleared;
		},
		{ behavior: 'immediate' }
	);
}
