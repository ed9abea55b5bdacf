import { mkdirSync, mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Data that tests may share and keep from run to run: evidence tables, each named by its pack's hash, so that none is ever stale. */
export const sharedData = join(tmpdir(), 'provewell-tests');

/** A data folder of its own for a server, with the shared evidence tables in it. */
export function makeDataFolder(): string {
	const folder = mkdtempSync(join(tmpdir(), 'provewell-data-'));
	mkdirSync(join(sharedData, 'evidence'), { recursive: true });
	symlinkSync(join(sharedData, 'evidence'), join(folder, 'evidence'));
	return folder;
}

export function removeFolder(folder: string): void {
	rmSync(folder, { recursive: true, force: true });
}
