/** Learners and the sessions by which a browser is known to be one. */
import { index, integer, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { defaultRetention, defaultZone } from '#shared/review/memory/memory.ts';

/** What an account may do: practise; keep cohorts and set papers; write scenarios; all of it, and say who may. */
export const roles = ['learner', 'assessor', 'author', 'owner'] as const;
export type Role = (typeof roles)[number];

export const learner = sqliteTable('learner', {
	id: text('id').primaryKey(),
	/** A guest has no name and no password, only the session of one browser. */
	guest: integer('guest', { mode: 'boolean' }).notNull(),
	/** Made by the server to fill pages, and shown as invented. */
	invented: integer('invented', { mode: 'boolean' }).notNull().default(false),
	role: text('role', { enum: roles }).notNull().default('learner'),
	/** As the learner wrote it; null for a guest. */
	name: text('name'),
	/** The name as it is compared: one account has it. */
	nameKey: text('name_key').unique(),
	email: text('email'),
	/** Argon2id, in the form that names its own parameters; null for a guest. */
	password: text('password'),
	/** IANA name of the time zone in which the learner's days turn. */
	zone: text('zone').notNull().default(defaultZone),
	/** Recall at which practice is to come back, 0.7 to 0.97. */
	retention: real('retention').notNull().default(defaultRetention),
	/** SHA-256 of the secret in the address of the calendar, hexadecimal; null where there is none. */
	calendar: text('calendar').unique(),
	created: integer('created', { mode: 'timestamp_ms' }).notNull(),
	/** When the account was deleted, where papers were sat with it: the row holds those, and nothing else is left of it. */
	gone: integer('gone', { mode: 'timestamp_ms' })
});

/** The names of the columns' keys are those that the session library's adapter asks for. */
export const session = sqliteTable(
	'session',
	{
		id: text('id').primaryKey(),
		userId: text('learner')
			.notNull()
			.references(() => learner.id, { onDelete: 'cascade' }),
		/** Seconds since 1970. */
		expiresAt: integer('expires_at').notNull()
	},
	(table) => [index('session_by_learner').on(table.userId)]
);

/** The link by which the first owner signs up; of use once. */
export const ownerLink = sqliteTable('owner_link', {
	/** SHA-256 of the secret in the link, hexadecimal. */
	secret: text('secret').primaryKey(),
	created: integer('created', { mode: 'timestamp_ms' }).notNull()
});

/**
 * Passwords that were wrong, by what was tried (`name:...`, or `own:...` at a browser that is signed in) and by where from (`address:...`), all
 * hashed.
 */
export const failedSignIn = sqliteTable(
	'failed_sign_in',
	{
		key: text('key').notNull(),
		at: integer('at', { mode: 'timestamp_ms' }).notNull()
	},
	(table) => [index('failed_sign_in_by_key').on(table.key, table.at)]
);

export type LearnerRow = typeof learner.$inferSelect;
