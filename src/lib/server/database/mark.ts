/** Marks given to what was sat, what moderation changed in them, the audit trail, and what is on its way to a record store. */
import { index, integer, primaryKey, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { sitting } from './paper.ts';

/** The mark of one item as it was worked out when the sitting closed. Never changed: what moderation changes lies beside it. */
export const itemMark = sqliteTable(
	'item_mark',
	{
		sitting: text('sitting')
			.notNull()
			.references(() => sitting.id, { onDelete: 'cascade' }),
		slot: integer('slot').notNull(),
		/** JSON of the core's `ItemResult`. */
		content: text('content').notNull(),
		got: real('got').notNull(),
		outOf: real('out_of').notNull(),
		at: integer('at', { mode: 'timestamp_ms' }).notNull()
	},
	(table) => [primaryKey({ columns: [table.sitting, table.slot] })]
);

/** A mark changed by hand, with the reason. Rows are added and never changed; the latest of an item and criterion holds. */
export const markChange = sqliteTable(
	'mark_change',
	{
		id: integer('id').primaryKey({ autoIncrement: true }),
		sitting: text('sitting')
			.notNull()
			.references(() => sitting.id, { onDelete: 'cascade' }),
		slot: integer('slot').notNull(),
		/** One of the core's criteria; null for the mark of a drill. */
		criterion: text('criterion'),
		before: real('before').notNull(),
		after: real('after').notNull(),
		reason: text('reason').notNull(),
		by: text('by').notNull(),
		at: integer('at', { mode: 'timestamp_ms' }).notNull()
	},
	(table) => [index('mark_change_by_sitting').on(table.sitting)]
);

/** What a second marker, another than who moderated, says of a mark sheet. */
export const secondMarking = sqliteTable(
	'second_marking',
	{
		id: integer('id').primaryKey({ autoIncrement: true }),
		sitting: text('sitting')
			.notNull()
			.references(() => sitting.id, { onDelete: 'cascade' }),
		by: text('by').notNull(),
		at: integer('at', { mode: 'timestamp_ms' }).notNull(),
		agrees: integer('agrees', { mode: 'boolean' }).notNull(),
		note: text('note').notNull(),
		/** Id of the latest change of a mark that it was said of; null where none was changed yet. By this, and not by the clock, it holds. */
		lastChange: integer('last_change')
	},
	(table) => [index('second_marking_by_sitting').on(table.sitting)]
);

/** What the audit trail tells of. */
export const auditKinds = [
	'cohort-made',
	'cohort-renamed',
	'cohort-archived',
	'cohort-restored',
	'code-renewed',
	'assessor-added',
	'assessor-removed',
	'member-added',
	'member-left',
	'member-merged',
	'extra-time',
	'paper-made',
	'variants-made',
	'paper-set',
	'window-changed',
	'standard-set',
	'mark-taken',
	'sitting-began',
	'deadline-moved',
	'sitting-ended',
	'sitting-marked',
	'mark-changed',
	'second-marked',
	'sheet-locked',
	'sheet-unlocked',
	'exported',
	'role-changed',
	'demo-cleared'
] as const;

/** The audit trail. The database itself refuses to change or delete a row (triggers in the migration); each row's hash covers the one before. */
export const auditEntry = sqliteTable(
	'audit_entry',
	{
		/** From 1, without gaps. */
		seq: integer('seq').primaryKey(),
		at: integer('at', { mode: 'timestamp_ms' }).notNull(),
		/** Id of the account, which may be gone since; null for the server itself. */
		by: text('by'),
		cohort: text('cohort'),
		kind: text('kind', { enum: auditKinds }).notNull(),
		/** Id of what it concerns. */
		subject: text('subject').notNull(),
		/** JSON; no names of people and no secrets, since it outlives both. */
		content: text('content').notNull(),
		previous: text('previous').notNull(),
		hash: text('hash').notNull()
	},
	(table) => [index('audit_by_subject').on(table.subject), index('audit_by_cohort').on(table.cohort)]
);

/** Why something was done, in the words of who did it, which may name people: the row of the trail holds no more than their digest. */
export const auditReason = sqliteTable('audit_reason', {
	entry: integer('entry')
		.primaryKey()
		.references(() => auditEntry.seq),
	text: text('text').notNull()
});

/** A statement for a record store, kept until it is taken there or filed. */
export const outbox = sqliteTable(
	'outbox',
	{
		/** UUID, the statement's own id: the store takes the same one once, however often it is sent. */
		id: text('id').primaryKey(),
		sitting: text('sitting').notNull(),
		statement: text('statement').notNull(),
		created: integer('created', { mode: 'timestamp_ms' }).notNull(),
		tries: integer('tries').notNull().default(0),
		/** When it is to be tried again; null once it is sent or filed. */
		next: integer('next', { mode: 'timestamp_ms' }),
		sent: integer('sent', { mode: 'timestamp_ms' }),
		/** When it was written to the file instead. */
		filed: integer('filed', { mode: 'timestamp_ms' }),
		/** What the last try came to. */
		problem: text('problem')
	},
	(table) => [index('outbox_by_next').on(table.next)]
);

export type ItemMarkRow = typeof itemMark.$inferSelect;
export type MarkChangeRow = typeof markChange.$inferSelect;
export type SecondMarkingRow = typeof secondMarking.$inferSelect;
export type AuditRow = typeof auditEntry.$inferSelect;
export type OutboxRow = typeof outbox.$inferSelect;
