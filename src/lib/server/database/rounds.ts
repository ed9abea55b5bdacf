/** Hot queries of rounds and of what is in them, prepared once a database. */
import { and, asc, desc, eq, isNull, sql } from 'drizzle-orm';
import type { Database } from './open.ts';
import { attempt, drill, round, roundItem, type RoundItemRow, type RoundRow } from './schema.ts';

/** An item with how far it has come. */
export interface ItemRow extends RoundItemRow {
	readonly attemptEnded: Date | null;
	readonly attemptReviewed: Date | null;
	readonly drillAnswered: Date | null;
}

export function roundsIn(db: Database) {
	const latestOf = db
		.select()
		.from(round)
		.where(eq(round.learner, sql.placeholder('learner')))
		.orderBy(desc(round.created), desc(sql`rowid`))
		.limit(1)
		.prepare();
	const latestOfNights = db
		.select()
		.from(round)
		.where(and(eq(round.learner, sql.placeholder('learner')), isNull(round.refresher)))
		.orderBy(desc(round.created), desc(sql`rowid`))
		.limit(1)
		.prepare();
	const byId = db
		.select()
		.from(round)
		.where(eq(round.id, sql.placeholder('id')))
		.prepare();
	const countOf = db
		.select({ count: sql<number>`count(*)` })
		.from(round)
		.where(eq(round.learner, sql.placeholder('learner')))
		.prepare();
	const itemsOf = db
		.select({ item: roundItem, attemptEnded: attempt.ended, attemptReviewed: attempt.reviewed, drillAnswered: drill.answered })
		.from(roundItem)
		.leftJoin(attempt, eq(attempt.id, roundItem.attempt))
		.leftJoin(drill, eq(drill.id, roundItem.drill))
		.where(eq(roundItem.round, sql.placeholder('round')))
		.orderBy(asc(roundItem.place))
		.prepare();

	return {
		/** The round that the learner began last, open or over. */
		latest: (learner: string): RoundRow | undefined => latestOf.get({ learner }),
		/** The same, refreshers left out. */
		latestOfNights: (learner: string): RoundRow | undefined => latestOfNights.get({ learner }),
		find: (id: string): RoundRow | undefined => byId.get({ id }),
		/** How many the learner has begun. */
		countOf: (learner: string): number => countOf.get({ learner })!.count,
		items: (id: string): ItemRow[] => itemsOf.all({ round: id }).map(({ item, ...came }) => ({ ...item, ...came })),
		add(row: RoundRow, items: readonly (typeof roundItem.$inferInsert)[]): void {
			db.insert(round).values(row).run();
			for (const item of items) db.insert(roundItem).values(item).run();
		},
		/** The round that holds an attempt or a drill. */
		holding: (played: { readonly attempt: string } | { readonly drill: string }): RoundRow | undefined =>
			db
				.select({ round })
				.from(roundItem)
				.innerJoin(round, eq(round.id, roundItem.round))
				.where('attempt' in played ? eq(roundItem.attempt, played.attempt) : eq(roundItem.drill, played.drill))
				.get()?.round,
		played(round: string, place: number, what: { readonly attempt: string } | { readonly drill: string }): void {
			db.update(roundItem)
				.set(what)
				.where(and(eq(roundItem.round, round), eq(roundItem.place, place)))
				.run();
		},
		/** Ends it, where it is open. */
		end: (id: string, ended: Date): void =>
			void db
				.update(round)
				.set({ ended })
				.where(and(eq(round.id, id), isNull(round.ended)))
				.run()
	};
}
