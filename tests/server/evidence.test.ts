import { mkdirSync, mkdtempSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import { encodeEvidence } from '#shared/diagnosis/store.ts';
import { joinEvidence, evidenceSeed, machinesPerFault, sampleFault } from '#shared/diagnosis/sample-evidence.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { evidenceFor, evidenceProgress } from '$lib/server/evidence/evidence.ts';
import { combi } from '../sampled.ts';
import { removeFolder } from '../test-data.ts';

/** Two faults make a table quickly; a hash of its own keeps it from the others. Each test has its own, since a table is kept in memory. */
const fewFaults = (hash: string): Pack => ({ ...combi, hash, faults: combi.faults.slice(0, 2) });

let folder: string;
beforeAll(() => {
	// Of its own: a table that another run left behind would not be made.
	folder = mkdtempSync(join(tmpdir(), 'provewell-evidence-'));
	mkdirSync(join(folder, 'evidence'));
	vi.stubEnv('PROVEWELL_DATA', folder);
});
afterAll(() => {
	vi.unstubAllEnvs();
	removeFolder(folder);
});

const fileOf = (hash: string) => join(folder, 'evidence', `${hash}.bin`);

it('is made by workers, told of while it is made, and kept as the very table made in one go', async () => {
	const pack = fewFaults('test-made-by-workers');
	const table = evidenceFor(pack);
	await vi.waitFor(() => expect(evidenceProgress(pack.hash)).toEqual({ done: expect.any(Number), of: 3 }));
	const made = await table;
	expect(evidenceProgress(pack.hash)).toBeNull();
	const parts = [-1, 0, 1].map((fault) => sampleFault(pack, fault, machinesPerFault, evidenceSeed));
	const inOneGo = encodeEvidence(joinEvidence(pack, parts));
	expect(Buffer.compare(encodeEvidence(made), inOneGo)).toBe(0);
	expect(Buffer.compare(readFileSync(fileOf(pack.hash)), inOneGo)).toBe(0);
	expect(await evidenceFor(pack)).toBe(made);
});

it('is made again where the file on disk is damaged, and no half-written file is left beside it', async () => {
	const pack = fewFaults('test-damaged-file');
	writeFileSync(fileOf(pack.hash), 'PWEV and then rubbish');
	const table = await evidenceFor(pack);
	expect(Buffer.compare(readFileSync(fileOf(pack.hash)), encodeEvidence(table))).toBe(0);
	expect(readdirSync(join(folder, 'evidence')).filter((name) => name.startsWith(`${pack.hash}.bin.`))).toEqual([]);
});

it('tells everyone who waits when it cannot be made, and is tried afresh the next time', async () => {
	const pack = { ...fewFaults('test-cannot-be-made'), family: { ...combi.family, model: 'no-such-model' } };
	await expect(evidenceFor(pack)).rejects.toThrow(/no-such-model/);
	await expect(evidenceFor(pack)).rejects.toThrow(/no-such-model/);
	expect(evidenceProgress(pack.hash)).toBeNull();
});
