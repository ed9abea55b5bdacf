/** Statements kept in a file instead of a record store: one line of JSON each, each once, on disk before anybody counts on it. */
import { closeSync, existsSync, fsyncSync, ftruncateSync, openSync, readFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { dataFolder, makeFolder } from '../folders.ts';

export const statementsFile = (folder = dataFolder()): string => join(folder, 'records', 'statements.jsonl');

export interface StatementsFile {
	readonly path: string;
	/**
	 * Adds the statements that are not in it yet.
	 * @param statements  by id, as JSON on one line
	 * @throws what the system says where it cannot be written; what was added by then is found at the next try
	 */
	append(statements: ReadonlyMap<string, string>): void;
}

export function statementsFileAt(path: string): StatementsFile {
	let there: Set<string> | undefined;

	/** What the file holds. A last line that a crash left unfinished is cut off: nobody was told that it was there. */
	function read(): Set<string> {
		if (!existsSync(path)) return new Set();
		const bytes = readFileSync(path);
		const whole = bytes.lastIndexOf(0x0a) + 1;
		if (whole < bytes.length) {
			const file = openSync(path, 'r+');
			try {
				ftruncateSync(file, whole);
				fsyncSync(file);
			} finally {
				closeSync(file);
			}
		}
		const lines = bytes.subarray(0, whole).toString('utf8').split('\n').filter(Boolean);
		// The statement's own id comes first on its line; a line that somebody else wrote is left as it is.
		return new Set(lines.flatMap((line) => /"id":"([0-9a-f-]{36})"/.exec(line)?.[1] ?? []));
	}

	return {
		path,
		append(statements) {
			// After a failure it is read anew, since a line may stand in it in part.
			const known = (there ??= read());
			const added = [...statements].filter(([id]) => !known.has(id));
			if (added.length === 0) return;
			there = undefined;
			makeFolder(join(path, '..'));
			const file = openSync(path, 'a');
			try {
				const text = Buffer.from(added.map(([, statement]) => `${statement}\n`).join(''), 'utf8');
				for (let at = 0; at < text.length; at += writeSync(file, text, at));
				fsyncSync(file);
			} finally {
				closeSync(file);
			}
			syncFolder(join(path, '..'));
			there = new Set([...known, ...added.map(([id]) => id)]);
		}
	};
}

/** So that a file just made is found after a power cut. */
function syncFolder(folder: string): void {
	const handle = openSync(folder, 'r');
	try {
		fsyncSync(handle);
	} finally {
		closeSync(handle);
	}
}
