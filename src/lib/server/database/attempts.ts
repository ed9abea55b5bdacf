/** Hot queries of attempts and actions, prepared once a database. */
import { and, asc, desc, eq, isNotNull, isNull, sql } from 'drizzle-orm';
import type { Database } from './open.ts';
import { action, attempt, learner, pack, sittingItem, type Attempt } from './schema.ts';

export interface StoredAction {
	readonly seq: number;
	/** JSON. */
	readonly content: string;
	readonly at: Date;
}

/** The seq that was expected is not the next one: another tab or another process was first. */
export class OutOfTurn extends Error {}

export type Attempts = ReturnType<typeof attemptsIn>;

export function attemptsIn(db: Database) {
	const attemptById = db
		.select()
		.from(attempt)
		.where(eq(attempt.id, sql.placeholder('id')))
		.prepare();
	const actionsOf = db
		.select({ seq: action.seq, content: action.content, at: action.at })
		.from(action)
		.where(eq(action.attempt, sql.placeholder('attempt')))
		.orderBy(asc(action.seq))
		.prepare();
	const countOf = db
		.select({ count: sql<number>`count(*)` })
		.from(action)
		.where(eq(action.attempt, sql.placeholder('attempt')))
		.prepare();
	const latestOf = db
		.select()
		.from(attempt)
		.where(eq(attempt.learner, sql.placeholder('learner')))
		.orderBy(desc(attempt.created))
		.limit(sql.placeholder('limit'))
		.prepare();

	const latestForPractice = db
		.select({ attempt })
		.from(attempt)
		.leftJoin(sittingItem, eq(sittingItem.attempt, attempt.id))
		.where(and(eq(attempt.learner, sql.placeholder('learner')), isNull(sittingItem.sitting)))
		.orderBy(desc(attempt.created))
		.limit(sql.placeholder('limit'))
		.prepare();
	const latestEndedOf = db
		.select()
		.from(attempt)
		.where(and(eq(attempt.learner, sql.placeholder('learner')), isNotNull(attempt.ended)))
		.orderBy(desc(attempt.created))
		.limit(sql.placeholder('limit'))
		.prepare();

	return {
		find: (id: string): Attempt | undefined => attemptById.get({ id }),
		actions: (id: string): StoredAction[] => actionsOf.all({ attempt: id }),
		/** The learner's attempts, running and ended, the latest first. */
		latest: (learner: string, limit: number): Attempt[] => latestOf.all({ learner, limit }),

		/** Those of them that are of no sitting. */
		latestForPractice: (learner: string, limit: number): Attempt[] => latestForPractice.all({ learner, limit }).map((row) => row.attempt),

		/** Those of them that have ended. */
		latestEnded: (learner: string, limit: number): Attempt[] => latestEndedOf.all({ learner, limit }),

		/** Keeps the faults that seeds drew, by attempt, in rows of before that was done at the start. */
		keepDrawn(faults: ReadonlyMap<string, string>): void {
			db.transaction(
				(inside) => {
					for (const [id, drawn] of faults) inside.update(attempt).set({ drawn }).where(eq(attempt.id, id)).run();
				},
				{ behavior: 'immediate' }
			);
		},

		/** Whose attempt it is, where that learner was invented to fill pages. */
		inventedOwner: (id: string): string | undefined =>
			db
				.select({ learner: learner.id })
				.from(attempt)
				.innerJoin(learner, eq(learner.id, attempt.learner))
				.where(and(eq(attempt.id, id), eq(learner.invented, true)))
				.get()?.learner,

		add(row: typeof attempt.$inferInsert): void {
			db.insert(attempt).values(row).run();
		},

		keepPack(row: typeof pack.$inferInsert): void {
			db.insert(pack).values(row).onConflictDoNothing().run();
		},

		packContent: (hash: string): string | undefined =>
			db.select({ content: pack.content }).from(pack).where(eq(pack.hash, hash)).get()?.content,

		/**
		 * Stores one action as number `row.seq` of its attempt, and the attempt's end with it where the action ends it. It is on the disk
		 * when this returns.
		 * @throws OutOfTurn when `row.seq` is not the next
		 */
		append(row: typeof action.$inferInsert, ends: boolean): void {
			db.transaction(
				(inside) => {
					if (countOf.get({ attempt: row.attempt })!.count !== row.seq) throw new OutOfTurn();
					inside.insert(action).values(row).run();
					if (ends) inside.update(attempt).set({ ended: row.at }).where(eq(attempt.id, row.attempt)).run();
				},
				{ behavior: 'immediate' }
			);
		}
	};
}
