/** A worker thread that works out debriefs. Keeps the packs and tables it has been given, the latest few. Run from its source. */
import { parentPort } from 'node:worker_threads';
import type { Action } from '#shared/callout/action.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { replay } from '#shared/callout/replay.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { debrief } from '#shared/marking/debrief.ts';
import type { Debrief } from '#shared/marking/mark-sheet.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { packFrom } from './kept-packs.ts';
import { Recent } from './recent.ts';

/** What a debrief follows from. */
export interface Path {
	readonly packHash: string;
	readonly seed: number;
	readonly fault: string | null;
	readonly actions: readonly Action[];
}
/** Goes before the first path of a pack, and again where the worker has let go of it. */
export interface Ground {
	/** The pack's content as `packToKeep` writes it. */
	readonly pack: string;
	readonly table: EvidenceTable;
}
export interface DebriefOrder {
	readonly number: number;
	readonly path: Path;
	readonly ground?: Ground;
}
export type DebriefDelivery = { readonly number: number } & (
	| { readonly debrief: Debrief }
	| { readonly failed: string }
	/** The pack is not, or no longer, at hand: the order is to be sent again with its ground. */
	| { readonly lacks: 'ground' }
);

const port = parentPort;
if (!port) throw new Error('debrief-worker.ts is started by debriefs.ts as a worker thread');
const grounds = new Recent<{ pack: Pack; table: EvidenceTable }>(3);

port.on('message', ({ number, path, ground }: DebriefOrder) => {
	port.postMessage({ number, ...answer(path, ground) } as DebriefDelivery);
});

function answer(path: Path, given: Ground | undefined): { debrief: Debrief } | { failed: string } | { lacks: 'ground' } {
	try {
		if (given) grounds.set(path.packHash, { pack: packFrom(given.pack), table: given.table });
		const ground = grounds.get(path.packHash);
		if (!ground) return { lacks: 'ground' };
		const callout = makeCallout(ground.pack, path.seed, path.fault ?? undefined);
		return { debrief: debrief(callout, replay(callout, path.actions), ground.table) };
	} catch (error) {
		return { failed: error instanceof Error ? (error.stack ?? error.message) : String(error) };
	}
}
