/** Cohorts, who keeps them, and the register of names in each. */
import { index, integer, primaryKey, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';
import { learner } from './learner.ts';

export const cohort = sqliteTable('cohort', {
	id: text('id').primaryKey(),
	name: text('name').notNull(),
	/** Made by the server to fill pages: shown as invented, and to every assessor. */
	invented: integer('invented', { mode: 'boolean' }).notNull().default(false),
	/** By which anybody joins who has it; null where it is joined by own invitations only. */
	code: text('code').unique(),
	created: integer('created', { mode: 'timestamp_ms' }).notNull(),
	/** Kept, and out of the way: nobody joins and no paper is set. */
	archived: integer('archived', { mode: 'timestamp_ms' })
});

/** Who keeps a cohort. An assessor sees those that they keep, and no others. */
export const cohortAssessor = sqliteTable(
	'cohort_assessor',
	{
		cohort: text('cohort')
			.notNull()
			.references(() => cohort.id, { onDelete: 'cascade' }),
		assessor: text('assessor')
			.notNull()
			.references(() => learner.id, { onDelete: 'cascade' }),
		since: integer('since', { mode: 'timestamp_ms' }).notNull()
	},
	(table) => [primaryKey({ columns: [table.cohort, table.assessor] }), index('cohort_by_assessor').on(table.assessor)]
);

/** A name on a cohort's register. It stays there when its learner leaves or deletes the account, since papers were sat under it. */
export const member = sqliteTable(
	'member',
	{
		id: text('id').primaryKey(),
		cohort: text('cohort')
			.notNull()
			.references(() => cohort.id, { onDelete: 'cascade' }),
		/** As the register has it, which may be another than the account's. */
		name: text('name').notNull(),
		/** The centre's own number for the learner. */
		reference: text('reference'),
		/** Own invitation, of use once: spent where `joined` is set; kept then, so that its link says so. Null where joined by the cohort's code. */
		code: text('code').unique(),
		/** Null until somebody joins as this name, and after the account is deleted. */
		learner: text('learner').references(() => learner.id, { onDelete: 'set null' }),
		/** Time allowed beyond a paper's own, as a share of it in percent: 25 gives 75 minutes for 60. */
		extraPercent: integer('extra_percent').notNull().default(0),
		created: integer('created', { mode: 'timestamp_ms' }).notNull(),
		joined: integer('joined', { mode: 'timestamp_ms' }),
		/** Left, or was taken off: sits no more papers, and is no longer in the map. */
		left: integer('left', { mode: 'timestamp_ms' })
	},
	(table) => [
		index('member_by_cohort').on(table.cohort),
		// A learner is on a register once; one who comes back takes the same line up again.
		uniqueIndex('member_of_learner').on(table.learner, table.cohort)
	]
);

export type CohortRow = typeof cohort.$inferSelect;
export type MemberRow = typeof member.$inferSelect;
