/** What practice leaves behind: drills, the log of how skills were shown, what was made of it, and rounds. */
import { index, integer, primaryKey, real, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';
import { recalls } from '#shared/marking/recall.ts';
import { attempt } from './attempt.ts';
import { learner } from './learner.ts';

/** A drill that was asked. The question is a function of generator, family, pack and seed; only the answer is the learner's. */
export const drill = sqliteTable(
	'drill',
	{
		/** Random and unguessable, since it stands in the address of the page. */
		id: text('id').primaryKey(),
		learner: text('learner')
			.notNull()
			.references(() => learner.id, { onDelete: 'cascade' }),
		generator: text('generator').notNull(),
		/** Null for one that concerns no family. */
		family: text('family'),
		/** Of the family's pack when it was asked. */
		packHash: text('pack_hash'),
		seed: integer('seed').notNull(),
		created: integer('created', { mode: 'timestamp_ms' }).notNull(),
		/** The answer as JSON; null until given. */
		answer: text('answer'),
		answered: integer('answered', { mode: 'timestamp_ms' })
	},
	(table) => [index('drill_by_learner').on(table.learner, table.created)]
);

/** The log from which all that is known of a learner's memory follows. Rows are added and never changed. */
export const review = sqliteTable(
	'review',
	{
		id: integer('id').primaryKey({ autoIncrement: true }),
		learner: text('learner')
			.notNull()
			.references(() => learner.id, { onDelete: 'cascade' }),
		skill: text('skill').notNull(),
		at: integer('at', { mode: 'timestamp_ms' }).notNull(),
		recall: text('recall', { enum: recalls }).notNull(),
		/** Minutes that it took by the learner's own clock. */
		minutes: real('minutes').notNull(),
		/** The attempt or the drill that showed it. */
		attempt: text('attempt').references(() => attempt.id, { onDelete: 'cascade' }),
		drill: text('drill').references(() => drill.id, { onDelete: 'cascade' })
	},
	(table) => [
		index('review_by_learner').on(table.learner, table.at),
		// One attempt or drill shows one skill once, however often it is settled.
		uniqueIndex('review_of_attempt').on(table.attempt, table.skill),
		uniqueIndex('review_of_drill').on(table.drill, table.skill)
	]
);

/** What the log makes of each skill, kept so that a page need not read the whole log. Rebuilt from the log wherever `scheduler` is another. */
export const memory = sqliteTable(
	'memory',
	{
		learner: text('learner')
			.notNull()
			.references(() => learner.id, { onDelete: 'cascade' }),
		skill: text('skill').notNull(),
		/** Version, parameters and retention by which it was made. */
		scheduler: text('scheduler').notNull(),
		/** JSON of the core's `Memory`. */
		content: text('content').notNull(),
		due: integer('due', { mode: 'timestamp_ms' }).notNull()
	},
	(table) => [primaryKey({ columns: [table.learner, table.skill] }), index('memory_by_due').on(table.learner, table.due)]
);

/** A round that a learner began. */
export const round = sqliteTable(
	'round',
	{
		id: text('id').primaryKey(),
		learner: text('learner')
			.notNull()
			.references(() => learner.id, { onDelete: 'cascade' }),
		/** What the learner had to spare. */
		minutes: integer('minutes').notNull(),
		/** JSON of the families of a refresher, the one met and those known; null for a round of the night. */
		refresher: text('refresher'),
		created: integer('created', { mode: 'timestamp_ms' }).notNull(),
		/** When its last item was done or the learner called it a night. */
		ended: integer('ended', { mode: 'timestamp_ms' })
	},
	(table) => [index('round_by_learner').on(table.learner, table.created)]
);

export const roundItem = sqliteTable(
	'round_item',
	{
		round: text('round')
			.notNull()
			.references(() => round.id, { onDelete: 'cascade' }),
		place: integer('place').notNull(),
		skill: text('skill').notNull(),
		/** JSON of the core's `RoundItem`: what is to be played. */
		content: text('content').notNull(),
		/** What came of it, once begun. */
		attempt: text('attempt').references(() => attempt.id, { onDelete: 'set null' }),
		drill: text('drill').references(() => drill.id, { onDelete: 'set null' })
	},
	(table) => [
		primaryKey({ columns: [table.round, table.place] }),
		// By which the deletion of an attempt or a drill finds where it is named.
		index('round_item_by_attempt').on(table.attempt),
		index('round_item_by_drill').on(table.drill)
	]
);

/**
 * Parameters of the scheduler that were fitted: for everyone (`learner` null) or for one learner. The latest that was kept is in force. A
 * return to what a fit falls back on (the published parameters; everyone's) is kept without parameters, so that what holds from then on is
 * whatever the fallback is at the time.
 */
export const fit = sqliteTable(
	'fit',
	{
		id: integer('id').primaryKey({ autoIncrement: true }),
		learner: text('learner').references(() => learner.id, { onDelete: 'cascade' }),
		at: integer('at', { mode: 'timestamp_ms' }).notNull(),
		/** Usable items that it was fitted to. */
		items: integer('items').notNull(),
		version: text('version').notNull(),
		/** JSON array; empty for a return to the fallback. */
		parameters: text('parameters').notNull(),
		/** Log loss on reviews held out of the fit, before and after. */
		before: real('before').notNull(),
		after: real('after').notNull(),
		/** Whether it is used: only where it did better on what was held out. */
		kept: integer('kept', { mode: 'boolean' }).notNull()
	},
	(table) => [index('fit_by_learner').on(table.learner, table.version)]
);

export type DrillRow = typeof drill.$inferSelect;
export type ReviewRow = typeof review.$inferSelect;
export type RoundRow = typeof round.$inferSelect;
export type RoundItemRow = typeof roundItem.$inferSelect;
export type FitRow = typeof fit.$inferSelect;
