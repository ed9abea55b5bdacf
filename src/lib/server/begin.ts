/** What happens when the server starts and stops. */
import { closeDatabase, database } from './database/open.ts';

/** Opens the database and brings it up to date. @throws DataFolderProblem */
export function begin(): void {
	database();
}

/** Leaves nothing running and the database file whole. */
export function end(): void {
	closeDatabase();
}
