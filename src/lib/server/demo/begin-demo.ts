/** The demo of this process's database, and how much of it is wanted. */
import { callouts } from '../callouts/callouts.ts';
import { database } from '../database/open.ts';
import { log } from '../log.ts';
import { curriculum } from '../packs/curriculum.ts';
import { packs } from '../packs/packs.ts';
import { drawSources } from '../papers/papers.ts';
import { marking } from '../sheets/marking.ts';
import { extents, sitDemoPaper, type DemoParts, type Extent } from './demo.ts';

export const demoParts = (): DemoParts => ({ db: database(), callouts: callouts(), known: packs(), curriculum: curriculum() });

/** What `PROVEWELL_DEMO` asks for; all of it where it is not set. */
export function demoExtent(): Extent {
	const said = process.env.PROVEWELL_DEMO;
	const extent = extents.find((one) => one === (said ?? 'full'));
	if (!extent) log.warn({ said }, `PROVEWELL_DEMO is one of ${extents.join(', ')}; no demo was made.`);
	return extent ?? 'none';
}

/** Has the invented paper sat, once, in the background. What fails is told to the log, and the next start tries again. */
export async function demoSoon(): Promise<void> {
	try {
		await sitDemoPaper(demoParts(), drawSources(), (id) => marking().mark(id));
	} catch (error) {
		log.error({ error: String(error) }, 'The invented paper could not be made; the next start tries again.');
	}
}
