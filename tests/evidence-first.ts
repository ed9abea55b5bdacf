import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { sharedData } from './test-data.ts';

/** Makes the evidence tables that are not on disk yet, once for all tests, where both cores are free for it. */
export default async function evidenceFirst(): Promise<void> {
	process.env.PROVEWELL_DATA = sharedData;
	try {
		for (const pack of packs().values()) await evidenceFor(pack);
	} catch (error) {
		// The tests that need a table say what they miss; those that need none still run.
		console.error(`No evidence table: ${(error as Error).message}`);
	}
}
