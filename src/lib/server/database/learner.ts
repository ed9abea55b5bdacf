/** Learners and the sessions by which a browser is known to be one. */
import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const learner = sqliteTable('learner', {
	id: text('id').primaryKey(),
	/** A guest has no name and no password, only the session of one browser. */
	guest: integer('guest', { mode: 'boolean' }).notNull(),
	/** Made by the server to fill pages, and shown as invented. */
	invented: integer('invented', { mode: 'boolean' }).notNull().default(false),
	created: integer('created', { mode: 'timestamp_ms' }).notNull()
});

/** The names of the columns' keys are those that the session library's adapter asks for. */
export const session = sqliteTable('session', {
	id: text('id').primaryKey(),
	userId: text('learner')
		.notNull()
		.references(() => learner.id, { onDelete: 'cascade' }),
	/** Seconds since 1970. */
	expiresAt: integer('expires_at').notNull()
});
