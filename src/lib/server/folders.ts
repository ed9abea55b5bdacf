import { join, resolve } from 'node:path';

/** The project's own folder: the server, the tests and the terminal all start there. */
export const rootFolder = process.cwd();

/** Where everything that must outlive the process is kept; PROVEWELL_DATA, else `data/`. */
export function dataFolder(): string {
	return resolve(process.env.PROVEWELL_DATA || join(rootFolder, 'data'));
}
