/** The evidence table of each pack: made once by worker threads, kept on disk under the pack's hash, shared by server, terminal and tests. */
import { randomBytes } from 'node:crypto';
import { readFile, rename, rm, writeFile } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { joinEvidence } from '#shared/diagnosis/sample-evidence.ts';
import { decodeEvidence, encodeEvidence } from '#shared/diagnosis/store.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Delivery, Order } from './evidence-worker.ts';
import { dataFolder, makeFolder } from '../folders.ts';
import { packToKeep } from '../packs/kept-packs.ts';
import { startWorker } from '../worker.ts';

/** How far the making of a table has come, in faults. */
export interface EvidenceProgress {
	readonly done: number;
	readonly of: number;
}

const mostWorkers = 2;
const made = new Map<string, Promise<EvidenceTable>>();
const making = new Map<string, EvidenceProgress>();

/**
 * The pack's evidence table: from memory, from disk, or made now. A file that is torn, damaged or of an older make is made again.
 * A failure is told to everyone who waits, and the next call tries afresh.
 */
export function evidenceFor(pack: Pack): Promise<EvidenceTable> {
	let table = made.get(pack.hash);
	if (!table) {
		table = readOrMake(pack);
		made.set(pack.hash, table);
		table.catch(() => made.delete(pack.hash));
	}
	return table;
}

/** @returns null where no table of this hash is being made: it is ready, or nobody has asked for it */
export function evidenceProgress(hash: string): EvidenceProgress | null {
	return making.get(hash) ?? null;
}

async function readOrMake(pack: Pack): Promise<EvidenceTable> {
	const file = join(dataFolder(), 'evidence', `${pack.hash}.bin`);
	const bytes = await readFile(file).catch((error: NodeJS.ErrnoException) => {
		if (error.code === 'ENOENT') return null;
		throw error;
	});
	const kept = bytes && decodeEvidence(bytes, pack.hash);
	if (kept) return kept;
	try {
		const table = await makeInWorkers(pack);
		await writeWhole(file, encodeEvidence(table));
		return table;
	} finally {
		making.delete(pack.hash);
	}
}

/** Written beside and renamed, so that a reader finds a whole file or none. */
async function writeWhole(file: string, bytes: Uint8Array): Promise<void> {
	makeFolder(join(file, '..'));
	const beside = `${file}.${process.pid}-${randomBytes(4).toString('hex')}`;
	try {
		await writeFile(beside, bytes);
		await rename(beside, file);
	} catch (error) {
		await rm(beside, { force: true });
		throw error;
	}
}

async function makeInWorkers(pack: Pack): Promise<EvidenceTable> {
	const orders = [-1, ...pack.faults.keys()];
	const of = orders.length;
	const parts: Delivery[] = [];
	making.set(pack.hash, { done: 0, of });
	const count = Math.min(mostWorkers, availableParallelism(), of);
	const deliver = (part: Delivery) => {
		parts.push(part);
		making.set(pack.hash, { done: parts.length, of });
	};
	await Promise.all(Array.from({ length: count }, () => runWorker(pack, orders, deliver)));
	return joinEvidence(pack, parts);
}

/** One worker takes orders from the common list until none is left. */
function runWorker(pack: Pack, orders: number[], deliver: (part: Delivery) => void): Promise<void> {
	return new Promise((resolve, reject) => {
		const worker = startWorker('evidence/evidence-worker.ts', packToKeep(pack));
		const next = () => worker.postMessage((orders.shift() ?? null) satisfies Order);
		worker.on('message', (part: Delivery) => {
			deliver(part);
			next();
		});
		worker.on('error', reject);
		worker.on('exit', (code) => (code === 0 ? resolve() : reject(new Error(`an evidence worker ended with code ${code}`))));
		next();
	});
}
