/** The log of how skills were shown, and what was made of it. Hot queries, prepared once a database. */
import { and, asc, eq, isNotNull, isNull, not, or, sql } from 'drizzle-orm';
import { heldBack } from '../sittings/release.ts';
import type { Database } from './open.ts';
import { attempt, drill, learner, memory, paper, review, sitting, sittingItem, type ReviewRow } from './schema.ts';

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
		/** Whether nothing is left of a learner but papers that were sat. */
		isGone: (learnerId: string): boolean =>
			db.select({ gone: learner.gone }).from(learner).where(eq(learner.id, learnerId)).get()?.gone instanceof Date,

		/**
		 * Ids of ended attempts whose skills are not in the log yet, the earliest first: of one learner, or of everyone who is no invention.
		 * Those of a sitting wait until it may be told.
		 * @param now [ms since 1970]
		 */
		unreviewed: (now: number, learnerId?: string): string[] =>
			db
				.select({ id: attempt.id })
				.from(attempt)
				.innerJoin(learner, and(eq(learner.id, attempt.learner), eq(learner.invented, false), isNull(learner.gone)))
				.leftJoin(sittingItem, eq(sittingItem.attempt, attempt.id))
				.leftJoin(sitting, eq(sitting.id, sittingItem.sitting))
				.leftJoin(paper, eq(paper.id, sitting.paper))
				.where(
					and(
						isNotNull(attempt.ended),
						isNull(attempt.reviewed),
						or(isNull(sitting.id), not(heldBack(now)!)),
						learnerId === undefined ? undefined : eq(attempt.learner, learnerId)
					)
				)
				.orderBy(asc(attempt.ended))
				.all()
				.map(({ id }) => id),
		/** Ids of answered drills of sittings that may be told and whose skill is not in the log yet, of everyone who is no invention. */
		unreviewedDrills: (now: number): string[] =>
			db
				.select({ id: drill.id })
				.from(sittingItem)
				.innerJoin(sitting, eq(sitting.id, sittingItem.sitting))
				.innerJoin(paper, eq(paper.id, sitting.paper))
				.innerJoin(drill, eq(drill.id, sittingItem.drill))
				.innerJoin(learner, and(eq(learner.id, drill.learner), eq(learner.invented, false), isNull(learner.gone)))
				.leftJoin(review, eq(review.drill, drill.id))
				.where(and(isNotNull(drill.answered), isNull(review.id), not(heldBack(now)!)))
				.orderBy(asc(drill.answered))
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
