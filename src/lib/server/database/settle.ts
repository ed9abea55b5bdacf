/** Brings what was written back into the one file whenever nothing has been written for a while, so that a copy of the file is whole. */
import { statSync } from 'node:fs';
import type { Database } from './open.ts';

/** Looks this often; what was written is in the file after two looks without more. */
const everyMs = 3000;

/**
 * Empties the write-ahead log in quiet moments, until the database is closed. Where another program reads just then, it waits for the
 * next look.
 */
export function settleInQuiet({ $client: client }: Database, lookEveryMs = everyMs): void {
	let before = 0;
	const timer = setInterval(() => {
		if (!client.open) return clearInterval(timer);
		const { size = 0, mtimeMs = 0 } = statSync(`${client.name}-wal`, { throwIfNoEntry: false }) ?? {};
		if (size > 0 && mtimeMs === before) {
			const [{ timeout }] = client.pragma('busy_timeout') as [{ timeout: number }];
			client.pragma('busy_timeout = 0');
			client.pragma('wal_checkpoint(TRUNCATE)');
			client.pragma(`busy_timeout = ${timeout}`);
		}
		before = mtimeMs;
	}, lookEveryMs);
	timer.unref();
}
