/** What fits are made from, and what came of them. */
import { and, asc, desc, eq, gt, isNull, sql } from 'drizzle-orm';
import type { Database } from './open.ts';
import { action, fit, learner, review, type FitRow } from './schema.ts';

/** A line of the log, with the zone in which its learner's days turn. */
export type ZonedReview = ReturnType<ReturnType<typeof fitsIn>['log']>[number];

/** What stands in place of parameters where a fit was given up for what it falls back on. */
export const noParameters = '[]';

/** Whether a row says that what had been fitted was given up. */
export const isReturn = ({ parameters }: Pick<FitRow, 'parameters'>): boolean => parameters === noParameters;

export function fitsIn(db: Database) {
	/** Null stands for everyone. */
	const of = (learnerId: string | null) => (learnerId === null ? isNull(fit.learner) : eq(fit.learner, learnerId));

	return {
		/** The reviews of everyone who is no invention, or of one learner, in the order in which they happened. */
		log: (learnerId?: string) =>
			db
				.select({
					learner: review.learner,
					skill: review.skill,
					at: review.at,
					recall: review.recall,
					minutes: review.minutes,
					zone: learner.zone
				})
				.from(review)
				.innerJoin(learner, eq(learner.id, review.learner))
				.where(and(eq(learner.invented, false), learnerId === undefined ? undefined : eq(review.learner, learnerId)))
				.orderBy(asc(review.at), asc(review.id))
				.all(),
		/** Number of the log's last line; 0 where it is empty. */
		lastLine: (): number => db.select({ id: review.id }).from(review).orderBy(desc(review.id)).limit(1).get()?.id ?? 0,
		/** Whether the log has a line of after a moment. */
		hasSince: (at: Date): boolean => db.select({ id: review.id }).from(review).where(gt(review.at, at)).limit(1).get() !== undefined,
		/** When somebody last did something: an action of a callout, or a line of the log. */
		lastDone(): Date | undefined {
			const acted = db
				.select({ at: action.at })
				.from(action)
				.orderBy(desc(sql`rowid`))
				.limit(1)
				.get();
			const shown = db.select({ at: review.at }).from(review).orderBy(desc(review.id)).limit(1).get();
			const both = [acted, shown].flatMap((row) => (row ? [row.at] : []));
			return both.sort((a, b) => b.getTime() - a.getTime())[0];
		},

		/** The latest, kept or not. */
		latest: (learnerId: string | null, version: string): FitRow | undefined =>
			db
				.select()
				.from(fit)
				.where(and(of(learnerId), eq(fit.version, version)))
				.orderBy(desc(fit.id))
				.get(),
		/** The latest that was kept: what is in force. None after a return to the fallback. */
		kept(learnerId: string | null, version: string): FitRow | undefined {
			const latest = db
				.select()
				.from(fit)
				.where(and(of(learnerId), eq(fit.version, version), eq(fit.kept, true)))
				.orderBy(desc(fit.id))
				.limit(1)
				.get();
			return latest && isReturn(latest) ? undefined : latest;
		},
		add: (row: typeof fit.$inferInsert): void => void db.insert(fit).values(row).run()
	};
}
