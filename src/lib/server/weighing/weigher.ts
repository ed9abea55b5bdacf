/**
 * What takes long to weigh is weighed in worker threads, so that nobody else is kept waiting: one thread for debriefs, of which a long one
 * takes many seconds, one for drills, so that a drill does not wait behind them, one for the marks of sittings, of which many end at
 * once, and one for papers, which are drawn from many callouts. Each is started when it is first needed.
 */
import type { Worker } from 'node:worker_threads';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { packToKeep } from '../packs/kept-packs.ts';
import { startWorker } from '../worker.ts';
import type { Work, WorkDelivery, WorkOrder, Works } from './weigher-worker.ts';

/** It could not be worked out; the message is for the log. The next call tries afresh. */
export class WeighingFailed extends Error {
	override readonly name = 'WeighingFailed';
	/** @param of  name of the error that it failed with; null where the worker died */
	constructor(
		message: string,
		readonly of: string | null
	) {
		super(message);
	}
}

interface Waiting {
	readonly resolve: (delivery: WorkDelivery) => void;
	readonly reject: (error: WeighingFailed) => void;
}

class Weigher {
	#running: Worker | undefined;
	#orders = 0;
	readonly #waiting = new Map<number, Waiting>();

	/** @throws WeighingFailed */
	async weigh<Kind extends keyof Works>(
		pack: Pack,
		table: EvidenceTable,
		kind: Kind,
		of: Works[Kind]['of']
	): Promise<Works[Kind]['gives']> {
		const wanted = { packHash: pack.hash, work: { kind, ...of } as Work };
		let delivery = await this.#order(wanted);
		if ('lacks' in delivery) delivery = await this.#order({ ...wanted, ground: { pack: packToKeep(pack), table } });
		if ('gives' in delivery) return delivery.gives as Works[Kind]['gives'];
		if ('failed' in delivery) throw new WeighingFailed(delivery.failed, delivery.name);
		throw new WeighingFailed('the weighing worker lacks the pack that it was just given', null);
	}

	/** Ends the thread, if one runs; what it was at is lost. */
	async end(): Promise<void> {
		await this.#running?.terminate();
	}

	#order(wanted: Omit<WorkOrder, 'number'>): Promise<WorkDelivery> {
		return new Promise((resolve, reject) => {
			const worker = (this.#running ??= this.#start());
			const number = this.#orders++;
			this.#waiting.set(number, { resolve, reject });
			worker.ref();
			worker.postMessage({ number, ...wanted } satisfies WorkOrder);
		});
	}

	/** The worker keeps the process alive only while somebody waits for it. When it dies, whoever waits is told, and the next order starts another. */
	#start(): Worker {
		const worker = startWorker('weighing/weigher-worker.ts');
		worker.on('message', (delivery: WorkDelivery) => {
			this.#waiting.get(delivery.number)?.resolve(delivery);
			this.#waiting.delete(delivery.number);
			if (this.#waiting.size === 0) worker.unref();
		});
		worker.on('error', (error) => this.#ended(worker, error.stack ?? error.message));
		worker.on('exit', (code) => this.#ended(worker, `the weighing worker ended with code ${code}`));
		return worker;
	}

	#ended(worker: Worker, why: string): void {
		if (this.#running !== worker) return;
		this.#running = undefined;
		for (const { reject } of this.#waiting.values()) reject(new WeighingFailed(why, null));
		this.#waiting.clear();
	}
}

export const debriefWeigher = new Weigher();
export const drillWeigher = new Weigher();
export const markWeigher = new Weigher();
export const paperWeigher = new Weigher();

/** Ends the threads, where they run. */
export async function endWeighing(): Promise<void> {
	await Promise.all([debriefWeigher.end(), drillWeigher.end(), markWeigher.end(), paperWeigher.end()]);
}
