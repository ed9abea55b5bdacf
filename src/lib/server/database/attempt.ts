/** Attempts at callouts and the actions done in them: the whole of what a callout leaves behind. */
import { sql } from 'drizzle-orm';
import { index, integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { learner } from './learner.ts';
import { pack } from './pack.ts';

export const attempt = sqliteTable(
	'attempt',
	{
		/** Random and unguessable, since it stands in the address of the page. */
		id: text('id').primaryKey(),
		learner: text('learner')
			.notNull()
			.references(() => learner.id, { onDelete: 'cascade' }),
		family: text('family').notNull(),
		packHash: text('pack_hash')
			.notNull()
			.references(() => pack.hash),
		seed: integer('seed').notNull(),
		/** The fault asked for by whoever set the callout; null where the seed chose it. */
		fault: text('fault'),
		/** The fault that the seed chose, which is hidden like the other; null where one was asked for, and where this was not kept yet. */
		drawn: text('drawn'),
		created: integer('created', { mode: 'timestamp_ms' }).notNull(),
		ended: integer('ended', { mode: 'timestamp_ms' }),
		/** When the skills that it showed went into the log. */
		reviewed: integer('reviewed', { mode: 'timestamp_ms' })
	},
	(table) => [
		index('attempt_by_learner').on(table.learner, table.created),
		// Holds no more than what is still to be reviewed.
		index('attempt_unreviewed')
			.on(table.learner, table.ended)
			.where(sql`${table.ended} is not null and ${table.reviewed} is null`)
	]
);

export const action = sqliteTable(
	'action',
	{
		attempt: text('attempt')
			.notNull()
			.references(() => attempt.id, { onDelete: 'cascade' }),
		/** Place in the path, from 0, without gaps. */
		seq: integer('seq').notNull(),
		kind: text('kind').notNull(),
		/** The action as JSON, as the core's own schema has it. */
		content: text('content').notNull(),
		at: integer('at', { mode: 'timestamp_ms' }).notNull()
	},
	(table) => [primaryKey({ columns: [table.attempt, table.seq] })]
);

export type Attempt = typeof attempt.$inferSelect;
