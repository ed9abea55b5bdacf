/** Worker threads that run from their source, whoever starts them: the built server, the terminal and the tests run one and the same. */
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';
import { rootFolder } from './folders.ts';

/**
 * Starts a worker. A loader given by `--import` does not reach a worker's own entry on Node 20, so the worker registers it and then
 * imports its code.
 * @param file        its path from this folder
 * @param workerData  what it is given at its start
 */
export function startWorker(file: string, workerData?: unknown): Worker {
	const source = pathToFileURL(join(rootFolder, 'src/lib/server', file)).href;
	const boot = `import('tsx/esm/api').then(({ register }) => { register(); return import(${JSON.stringify(source)}); })`;
	return new Worker(boot, { eval: true, workerData });
}
