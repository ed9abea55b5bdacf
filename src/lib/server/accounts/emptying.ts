/**
 * An account with which papers were sat: a result that was filed must stay traceable to what was done, so the row stays as the holder of what
 * was played in them, and nothing else is left of it. The register of the cohort keeps the name that it has.
 */
import { and, eq, notExists, or } from 'drizzle-orm';
import { defaultRetention, defaultZone } from '#shared/review/memory/memory.ts';
import type { Database } from '../database/open.ts';
import {
	attempt,
	cohortAssessor,
	drill,
	fit,
	learner,
	member,
	memory,
	review,
	round,
	session,
	sitting,
	sittingItem
} from '../database/schema.ts';

/** Whether a paper was sat with this account, so that something of it has to stay. */
export function hasSat(db: Database, learnerId: string): boolean {
	const begun = db
		.select({ id: sitting.id })
		.from(member)
		.innerJoin(sitting, eq(sitting.member, member.id))
		.where(eq(member.learner, learnerId));
	const played = db
		.select({ id: sittingItem.sitting })
		.from(sittingItem)
		.leftJoin(attempt, eq(attempt.id, sittingItem.attempt))
		.leftJoin(drill, eq(drill.id, sittingItem.drill))
		.where(or(eq(attempt.learner, learnerId), eq(drill.learner, learnerId)));
	return begun.limit(1).get() !== undefined || played.limit(1).get() !== undefined;
}

/**
 * Takes everything out of an account but what was played in sittings. Nobody can sign in to it any more.
 * @param now [ms since 1970]
 */
export function emptyAccount(db: Database, learnerId: string, now: number): void {
	db.transaction(
		(inside) => {
			for (const { table, whose } of ownRows) inside.delete(table).where(eq(whose, learnerId)).run();
			const ofAttempt = inside.select().from(sittingItem).where(eq(sittingItem.attempt, attempt.id));
			inside
				.delete(attempt)
				.where(and(eq(attempt.learner, learnerId), notExists(ofAttempt)))
				.run();
			const ofDrill = inside.select().from(sittingItem).where(eq(sittingItem.drill, drill.id));
			inside
				.delete(drill)
				.where(and(eq(drill.learner, learnerId), notExists(ofDrill)))
				.run();
			inside.update(member).set({ learner: null }).where(eq(member.learner, learnerId)).run();
			inside
				.update(learner)
				.set({ ...nobody, gone: new Date(now) })
				.where(eq(learner.id, learnerId))
				.run();
		},
		{ behavior: 'immediate' }
	);
}

/** Tables of which a learner's rows go as a whole. */
const ownRows = [
	{ table: session, whose: session.userId },
	{ table: round, whose: round.learner },
	{ table: review, whose: review.learner },
	{ table: memory, whose: memory.learner },
	{ table: fit, whose: fit.learner },
	{ table: cohortAssessor, whose: cohortAssessor.assessor }
] as const;

/** What is left in the row. It is no owner either: a server whose owner went must be able to have another. */
const nobody = {
	name: null,
	nameKey: null,
	email: null,
	password: null,
	calendar: null,
	role: 'learner',
	zone: defaultZone,
	retention: defaultRetention
} as const;
