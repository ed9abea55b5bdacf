import { existsSync, mkdirSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';

/** The project's own folder: the server, the tests and the terminal all start there. */
export const rootFolder = process.cwd();

/** Where everything that must outlive the process is kept; PROVEWELL_DATA, else `data/`. */
export function dataFolder(): string {
	return resolve(process.env.PROVEWELL_DATA || join(rootFolder, 'data'));
}

/**
 * Makes a folder and those above it where they are missing. One at a time: Node's own way of making them all never comes back where the
 * system says that a folder above is missing though it is there, as under /proc.
 * @throws what the system says where it cannot be made
 */
export function makeFolder(folder: string): void {
	if (existsSync(folder)) return;
	if (dirname(folder) !== folder) makeFolder(dirname(folder));
	try {
		mkdirSync(folder);
	} catch (error) {
		// Another process was first.
		if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
	}
}
