/** A worker thread that fits the scheduler: seconds of arithmetic, while the server answers. Run from its source. */
import { parentPort } from 'node:worker_threads';
import { fitTo, type Fit, type Optimiser, type Standing } from '#shared/review/fitting/fit.ts';
import type { Trail } from '#shared/review/fitting/trail.ts';
import { optimiserIn } from './optimiser.ts';

export interface FitOrder {
	readonly trails: readonly Trail[];
	readonly standing: Standing;
	/** Folder of the optimiser's package, whether or not it is there. */
	readonly optimiser: string;
}
export type FitDelivery = { readonly fit: Fit | null } | { readonly failed: string };

const port = parentPort;
if (!port) throw new Error('fit-worker.ts is started by fitting.ts as a worker thread');

port.on('message', async (order: FitOrder) => port.postMessage(await answer(order)));

async function answer({ trails, standing, optimiser }: FitOrder): Promise<FitDelivery> {
	try {
		return { fit: await fitTo(trails, standing, await loaded(optimiser)) };
	} catch (error) {
		return { failed: error instanceof Error ? (error.stack ?? error.message) : String(error) };
	}
}

/** One that does not load is one that fails, so that the fit says so and goes on without. */
async function loaded(folder: string): Promise<Optimiser | null> {
	try {
		return await optimiserIn(folder);
	} catch (error) {
		return () => Promise.reject(error);
	}
}
