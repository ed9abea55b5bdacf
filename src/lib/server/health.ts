import { sql } from 'drizzle-orm';
import { database } from './database/open.ts';

/** @returns whether the database answers a question */
export function databaseAnswers(): boolean {
	try {
		database().get(sql`select 1`);
		return true;
	} catch {
		return false;
	}
}
