import { join } from 'node:path';
import Driver from 'better-sqlite3';
import { drizzle, type BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import { migrate } from 'drizzle-orm/better-sqlite3/migrator';
import { dataFolder, makeFolder, rootFolder } from '../folders.ts';
import * as schema from './schema.ts';

export type Database = BetterSQLite3Database<typeof schema> & { readonly $client: Driver.Database };

/** The data folder or the file in it cannot be used; the message says which and what to do, and is all that is shown. */
export class DataFolderProblem extends Error {
	override readonly name = 'DataFolderProblem';
}

const fileName = 'provewell.sqlite';

/**
 * Opens the one database file of a data folder, making both where they are missing, and brings its tables up to date.
 *
 * Write-ahead log with synchronous FULL: an action that has been answered survives a power cut, not only a killed process.
 * @throws DataFolderProblem when the folder cannot be made or written, or the file is locked or is no database
 */
export function openDatabase(folder: string): Database {
	const file = join(folder, fileName);
	let client: Driver.Database | undefined;
	try {
		makeFolder(folder);
		client = new Driver(file, { timeout: 3000 });
		client.pragma('journal_mode = WAL');
		client.pragma('synchronous = FULL');
		client.pragma('foreign_keys = ON');
		const database = drizzle(client, { schema });
		migrate(database, { migrationsFolder: join(rootFolder, 'migrations') });
		return database;
	} catch (error) {
		client?.close();
		throw new DataFolderProblem(reason(error, folder, file), { cause: error });
	}
}

/**
 * Opens the database file of a data folder to read it and nothing else: neither made nor brought up to date. A running server may have it
 * open as well.
 * @throws DataFolderProblem when there is none, or it cannot be read
 */
export function openToRead(folder: string): Database {
	const file = join(folder, fileName);
	try {
		const client = new Driver(file, { timeout: 3000, readonly: true, fileMustExist: true });
		return drizzle(client, { schema });
	} catch (error) {
		throw new DataFolderProblem(`There is no database at ${file} that can be read: ${(error as Error).message}.`, { cause: error });
	}
}

/** What went wrong, in one line for whoever runs the server. */
function reason(error: unknown, folder: string, file: string): string {
	const causes = [error, (error as Error).cause].filter((one): one is Error & { code?: string } => one instanceof Error);
	const code = causes.map((one) => one.code).find((one) => typeof one === 'string') ?? '';
	if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED')) {
		return `The database ${file} is locked by another program; stop that one, or set PROVEWELL_DATA to another folder.`;
	}
	if (code.startsWith('SQLITE_NOTADB') || code.startsWith('SQLITE_CORRUPT')) {
		return `The database ${file} is damaged or is no database; put a backup in its place, or move it away to begin anew.`;
	}
	const detail = causes[causes.length - 1]?.message ?? String(error);
	return `The data folder ${folder} cannot be used: ${detail}. Set PROVEWELL_DATA to a folder that can be written.`;
}

let opened: Database | undefined;

/** The database of this process, opened at first use. */
export function database(): Database {
	opened ??= openDatabase(dataFolder());
	return opened;
}

/** Closes this process's database, so that the log is written back into the file. */
export function closeDatabase(): void {
	opened?.$client.close();
	opened = undefined;
}
