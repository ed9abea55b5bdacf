/** What happens when the server starts and stops. */
import { callouts } from './callouts.ts';
import { closeDatabase, database } from './database/open.ts';
import { settleInQuiet } from './database/settle.ts';
import { endDebriefs } from './debriefs.ts';
import { seedDemo } from './demo.ts';
import { evidenceFor } from './evidence.ts';
import { log } from './log.ts';
import { packs } from './packs.ts';

/**
 * Opens the database, brings it up to date, fills it with the demo at the first start, and begins the evidence tables that are not on
 * disk yet.
 * @throws DataFolderProblem, NoScenarios, ScenarioProblems
 */
export function begin(): void {
	seedDemo(database(), callouts(), packs());
	settleInQuiet(database());
	void makeEvidence();
}

/** One family after the other, in the background; a debrief that needs one sooner waits for the same making. */
async function makeEvidence(): Promise<void> {
	for (const pack of packs().values()) {
		try {
			await evidenceFor(pack);
		} catch (error) {
			log.error({ family: pack.family.id, error: String(error) }, 'The evidence table could not be made; the next debrief tries again.');
		}
	}
}

/** Leaves the database file whole, and lets go of what is being worked out. */
export function end(): void {
	closeDatabase();
	void endDebriefs();
}
