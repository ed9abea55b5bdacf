/** Runs command lines without a process, and keeps what they print. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { readPacks } from '$lib/server/packs/read-scenarios.ts';
import { run } from '../../src/cli/run.ts';

const packs = readPacks();

export interface Printed {
	readonly code: number;
	readonly out: string;
	readonly err: string;
}

/** @param line what follows the program's name; words are parted by single blanks */
export async function typed(line: string): Promise<Printed> {
	let out = '';
	let err = '';
	const code = await run(
		line.split(' ').filter((word) => word !== ''),
		() => packs,
		{ out: (text) => (out += text), err: (text) => (err += text) }
	);
	return { code, out, err };
}

/** What `--json` prints. @throws Error when the line failed */
export async function json<T>(line: string): Promise<T> {
	const { code, out, err } = await typed(`${line} --json`);
	if (code !== 0) throw new Error(`exit ${code}: ${err}`);
	return JSON.parse(out) as T;
}

/** A file that goes with the test. */
export function written(content: unknown): string {
	const folder = mkdtempSync(join(tmpdir(), 'provewell-cli-'));
	onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
	const file = join(folder, 'attempt.json');
	writeFileSync(file, typeof content === 'string' ? content : JSON.stringify(content));
	return file;
}
