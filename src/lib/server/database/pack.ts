/** The content of every pack that an attempt was made from, so that it can be replayed after the data has changed. */
import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const pack = sqliteTable('pack', {
	/** SHA-256 of the content, hexadecimal. */
	hash: text('hash').primaryKey(),
	family: text('family').notNull(),
	/** The pack as JSON, without the model, which is code. */
	content: text('content').notNull(),
	created: integer('created', { mode: 'timestamp_ms' }).notNull()
});
