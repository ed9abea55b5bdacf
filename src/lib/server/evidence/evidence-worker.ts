/** A worker thread that samples machines of one fault at a time, as it is told. Run from its source by the TypeScript loader. */
import { parentPort, workerData } from 'node:worker_threads';
import { evidenceSeed, machinesPerFault, sampleFault } from '#shared/diagnosis/sample-evidence.ts';
import type { EvidencePart } from '#shared/diagnosis/sample-evidence.ts';
import { packFrom } from '../packs/kept-packs.ts';

/** Faults by index, -1 for healthy machines; `null` when there is nothing left to do. */
export type Order = number | null;
export type Delivery = EvidencePart;

const port = parentPort;
if (!port) throw new Error('evidence-worker.ts is started by evidence.ts as a worker thread');
const pack = packFrom(workerData as string);

port.on('message', (order: Order) => {
	if (order === null) {
		port.close();
		return;
	}
	const part: Delivery = sampleFault(pack, order, machinesPerFault, evidenceSeed);
	port.postMessage(part);
});
