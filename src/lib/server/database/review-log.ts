/** The log of how skills were shown, and what was made of it. Hot queries, prepared once a database. */
import { and, asc, eq, isNotNull, isNull, sql } from 'drizzle-orm';
import type { Database } from './open.ts';
import { attempt, learner, memory, review, type ReviewRow } from './schema.ts';

export type MemoryRow = typeof memory.$inferSelect;

export function reviewLogIn(db: Database) {
	const inOrder = [asc(review.at), asc(review.id)];
	const allOf = db
		.select()
		.from(review)
		.where(eq(review.learner, sql.placeholder('learner')))
		.orderBy(...inOrder)
		.prepare();
	const ofSkill = db
		.select()
		.from(review)
		.where(and(eq(review.learner, sql.placeholder('learner')), eq(review.skill, sql.placeholder('skill'))))
		.orderBy(...inOrder)
		.prepare();
	const ofAttempt = db
		.select()
		.from(review)
		.where(eq(review.attempt, sql.placeholder('attempt')))
		.orderBy(...inOrder)
		.prepare();
	const ofDrill = db
		.select()
		.from(review)
		.where(eq(review.drill, sql.placeholder('drill')))
		.prepare();
	const memoriesOf = db
		.select()
		.from(memory)
		.where(eq(memory.learner, sql.placeholder('learner')))
		.prepare();
	const countOf = db
		.select({ count: sql<number>`count(*)` })
		.from(review)
		.where(eq(review.learner, sql.placeholder('learner')))
		.prepare();
	const settingsOf = db
		.select({ zone: learner.zone, retention: learner.retention })
		.from(learner)
		.where(eq(learner.id, sql.placeholder('learner')))
		.prepare();

	return {
		/** In the order in which they happened. */
		all: (learner: string): ReviewRow[] => allOf.all({ learner }),
		count: (learner: string): number => countOf.get({ learner })!.count,
		ofSkill: (learner: string, skill: string): ReviewRow[] => ofSkill.all({ learner, skill }),
		ofAttempt: (attempt: string): ReviewRow[] => ofAttempt.all({ attempt }),
		ofDrill: (drill: string): ReviewRow[] => ofDrill.all({ drill }),
		add: (row: typeof review.$inferInsert): void => void db.insert(review).values(row).run(),

		memories: (learner: string): MemoryRow[] => memoriesOf.all({ learner }),
		keepMemory(row: MemoryRow): void {
			db.insert(memory)
				.values(row)
				.onConflictDoUpdate({ target: [memory.learner, memory.skill], set: row })
				.run();
		},
		forgetMemories: (learner: string): void => void db.delete(memory).where(eq(memory.learner, learner)).run(),

		/** By what the learner's days turn and practice comes back. */
		settings: (learner: string) => settingsOf.get({ learner }),
		/** Ids of ended attempts whose skills are not in the log yet, the earliest first: of one learner, or of everyone who is no invention. */
		unreviewed: (learnerId?: string): string[] =>
			db
				.select({ id: attempt.id })
				.from(attempt)
				.innerJoin(learner, and(eq(learner.id, attempt.learner), eq(learner.invented, false)))
				.where(
					and(isNotNull(attempt.ended), isNull(attempt.reviewed), learnerId === undefined ? undefined : eq(attempt.learner, learnerId))
				)
				.orderBy(asc(attempt.ended))
				.all()
				.map(({ id }) => id),
		/** @returns whether this call was the first to mark it */
		markReviewed: (id: string, at: Date): boolean =>
			db
				.update(attempt)
				.set({ reviewed: at })
				.where(and(eq(attempt.id, id), isNull(attempt.reviewed)))
				.run().changes > 0
	};
}
