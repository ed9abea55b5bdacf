/** Debriefs, worked out in a worker thread: a long path takes many seconds, and nobody else is kept waiting for them. */
import type { Worker } from 'node:worker_threads';
import type { Debrief } from '#shared/marking/mark-sheet.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { DebriefDelivery, DebriefOrder, Path } from './debrief-worker.ts';
import { evidenceFor } from './evidence.ts';
import { packToKeep } from './kept-packs.ts';
import { startWorker } from './worker.ts';

/** The debrief could not be worked out; the message is for the log. The next call tries afresh. */
export class DebriefFailed extends Error {
	override readonly name = 'DebriefFailed';
}

interface Waiting {
	readonly resolve: (delivery: DebriefDelivery) => void;
	readonly reject: (error: DebriefFailed) => void;
}

let running: Worker | undefined;
let orders = 0;
const waiting = new Map<number, Waiting>();

/**
 * Works out the debrief of a path, after the pack's evidence table, which is made where it is missing.
 * @throws DebriefFailed, or what the making of the table failed with
 */
export async function debriefFor(pack: Pack, { seed, fault, actions }: Omit<Path, 'packHash'>): Promise<Debrief> {
	const table = await evidenceFor(pack);
	const path: Path = { packHash: pack.hash, seed, fault, actions };
	let delivery = await order({ path });
	if ('lacks' in delivery) delivery = await order({ path, ground: { pack: packToKeep(pack), table } });
	if ('debrief' in delivery) return delivery.debrief;
	throw new DebriefFailed('failed' in delivery ? delivery.failed : 'the debrief worker lacks the pack that it was just given');
}

function order(wanted: Omit<DebriefOrder, 'number'>): Promise<DebriefDelivery> {
	return new Promise((resolve, reject) => {
		const worker = (running ??= start());
		const number = orders++;
		waiting.set(number, { resolve, reject });
		worker.ref();
		worker.postMessage({ number, ...wanted } satisfies DebriefOrder);
	});
}

/** The worker keeps the process alive only while somebody waits for it. When it dies, whoever waits is told, and the next order starts another. */
function start(): Worker {
	const worker = startWorker('debrief-worker.ts');
	worker.on('message', (delivery: DebriefDelivery) => {
		waiting.get(delivery.number)?.resolve(delivery);
		waiting.delete(delivery.number);
		if (waiting.size === 0) worker.unref();
	});
	worker.on('error', (error) => ended(worker, error.stack ?? error.message));
	worker.on('exit', (code) => ended(worker, `the debrief worker ended with code ${code}`));
	return worker;
}

function ended(worker: Worker, why: string): void {
	if (running !== worker) return;
	running = undefined;
	for (const { reject } of waiting.values()) reject(new DebriefFailed(why));
	waiting.clear();
}

/** Ends the worker, if one runs; what it was at is lost. */
export async function endDebriefs(): Promise<void> {
	await running?.terminate();
}
