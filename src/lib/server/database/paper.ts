/** Papers, their variants, and the sittings of them. */
import { sql } from 'drizzle-orm';
import { index, integer, primaryKey, real, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';
import { attempt } from './attempt.ts';
import { cohort, member } from './cohort.ts';
import { drill } from './practice.ts';

export const paperModes = ['practice', 'formal'] as const;

export const paper = sqliteTable(
	'paper',
	{
		id: text('id').primaryKey(),
		cohort: text('cohort')
			.notNull()
			.references(() => cohort.id, { onDelete: 'cascade' }),
		title: text('title').notNull(),
		/** Practice: the debrief comes when the sitting ends. Formal: no hints, and nothing is told before the window ends. */
		mode: text('mode', { enum: paperModes }).notNull(),
		/** JSON of the core's `Blueprint`. */
		blueprint: text('blueprint').notNull(),
		/** JSON of the core's `PassRule`. */
		passRule: text('pass_rule').notNull(),
		/** Allowed for a sitting, before extra time. */
		minutes: integer('minutes').notNull(),
		/** Sittings that a learner may begin. */
		attempts: integer('attempts').notNull().default(1),
		/** Variants that are wanted; those that are drawn are rows of `variant_item`. */
		variantCount: integer('variant_count').notNull().default(3),
		/** The window: when a sitting can be begun, and when the last is closed whatever its minutes. It counts once the paper is set. */
		opens: integer('opens', { mode: 'timestamp_ms' }),
		closes: integer('closes', { mode: 'timestamp_ms' }),
		created: integer('created', { mode: 'timestamp_ms' }).notNull(),
		/** Id of the account that made it; kept when that is gone. */
		createdBy: text('created_by').notNull(),
		/** When it was set. From then on its learners see it, and its blueprint, variants and pass rule change no more. */
		set: integer('set', { mode: 'timestamp_ms' })
	},
	(table) => [index('paper_by_cohort').on(table.cohort, table.created)]
);

/** One item of one variant: what is to be played. */
export const variantItem = sqliteTable(
	'variant_item',
	{
		paper: text('paper')
			.notNull()
			.references(() => paper.id, { onDelete: 'cascade' }),
		/** From 1. */
		variant: integer('variant').notNull(),
		/** Place in the paper, from 0; the same slot asks for the same by the blueprint in every variant. */
		slot: integer('slot').notNull(),
		/** JSON of the core's `VariantItem`. */
		content: text('content').notNull()
	},
	(table) => [primaryKey({ columns: [table.paper, table.variant, table.slot] })]
);

/** What one judge expects of a learner who only just passes, slot by slot. */
export const estimate = sqliteTable(
	'estimate',
	{
		paper: text('paper')
			.notNull()
			.references(() => paper.id, { onDelete: 'cascade' }),
		judge: text('judge').notNull(),
		slot: integer('slot').notNull(),
		/** Share of the slot's marks, 0 to 1. */
		expected: real('expected').notNull(),
		at: integer('at', { mode: 'timestamp_ms' }).notNull()
	},
	(table) => [primaryKey({ columns: [table.paper, table.judge, table.slot] })]
);

export const endings = ['handed-in', 'time', 'assessor'] as const;

export const sitting = sqliteTable(
	'sitting',
	{
		id: text('id').primaryKey(),
		paper: text('paper')
			.notNull()
			.references(() => paper.id, { onDelete: 'cascade' }),
		member: text('member')
			.notNull()
			.references(() => member.id, { onDelete: 'cascade' }),
		variant: integer('variant').notNull(),
		/** Which of the learner's attempts at the paper, from 1. */
		number: integer('number').notNull(),
		started: integer('started', { mode: 'timestamp_ms' }).notNull(),
		/** By the server's clock: own minutes with extra time, and never after the window. */
		deadline: integer('deadline', { mode: 'timestamp_ms' }).notNull(),
		ended: integer('ended', { mode: 'timestamp_ms' }),
		endedBy: text('ended_by', { enum: endings }),
		/** Digest of the session that sits; any other browser of the learner's is refused until it takes the seat. */
		seat: text('seat'),
		/** When the seat last asked for anything. */
		seen: integer('seen', { mode: 'timestamp_ms' }).notNull(),
		/** When its items were marked and the marks stored. */
		marked: integer('marked', { mode: 'timestamp_ms' }),
		/** Locked marks change no more. */
		locked: integer('locked', { mode: 'timestamp_ms' }),
		lockedBy: text('locked_by')
	},
	(table) => [
		// Two clicks begin one sitting.
		uniqueIndex('sitting_of_member').on(table.paper, table.member, table.number),
		index('sitting_by_member').on(table.member),
		// Looked at every few seconds; holds no more than what runs.
		index('sitting_running')
			.on(table.deadline)
			.where(sql`${table.ended} is null`)
	]
);

/** What came of an item once it was begun: an attempt or a drill, which belongs to the learner's account. */
export const sittingItem = sqliteTable(
	'sitting_item',
	{
		sitting: text('sitting')
			.notNull()
			.references(() => sitting.id, { onDelete: 'cascade' }),
		slot: integer('slot').notNull(),
		attempt: text('attempt').references(() => attempt.id),
		drill: text('drill').references(() => drill.id)
	},
	(table) => [
		primaryKey({ columns: [table.sitting, table.slot] }),
		uniqueIndex('sitting_item_by_attempt').on(table.attempt),
		uniqueIndex('sitting_item_by_drill').on(table.drill)
	]
);

export const sittingEvents = ['began', 'second-seat', 'took-seat', 'handed-in', 'time', 'closed-by-assessor'] as const;

/** What happened at a sitting besides the work itself, for the live view and the mark sheet. */
export const sittingEvent = sqliteTable(
	'sitting_event',
	{
		id: integer('id').primaryKey({ autoIncrement: true }),
		sitting: text('sitting')
			.notNull()
			.references(() => sitting.id, { onDelete: 'cascade' }),
		at: integer('at', { mode: 'timestamp_ms' }).notNull(),
		kind: text('kind', { enum: sittingEvents }).notNull()
	},
	(table) => [index('sitting_event_by_sitting').on(table.sitting, table.at)]
);

export type PaperRow = typeof paper.$inferSelect;
export type VariantItemRow = typeof variantItem.$inferSelect;
export type EstimateRow = typeof estimate.$inferSelect;
export type SittingRow = typeof sitting.$inferSelect;
export type SittingItemRow = typeof sittingItem.$inferSelect;
export type SittingEventRow = typeof sittingEvent.$inferSelect;
