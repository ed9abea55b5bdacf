/** What happens when the server starts and stops. */
import { forgetOldSessions, freshOwnerLink } from './accounts/index.ts';
import { callouts } from './callouts/callouts.ts';
import { closeDatabase, database } from './database/open.ts';
import { settleInQuiet } from './database/settle.ts';
import { endWeighing } from './weighing/weigher.ts';
import { seedDemo } from './callouts/demo.ts';
import { evidenceFor } from './evidence/evidence.ts';
import { fitAtNight } from './fitting/fit-at-night.ts';
import { log } from './log.ts';
import { packs } from './packs/packs.ts';
import { reviewLeftBehind } from './practice/after-a-callout.ts';

/**
 * Opens the database, brings it up to date, fills it with the demo at the first start, says how the first owner signs up while there is
 * none, begins the evidence tables that are not on disk yet, and then the reviews of callouts that the last stop left behind; fits the
 * scheduler at night.
 * @throws DataFolderProblem, NoScenarios, ScenarioProblems
 */
export function begin(): void {
	seedDemo(database(), callouts(), packs());
	settleInQuiet(database());
	fitAtNight(database());
	void forgetOldSessions();
	warnOfProxy();
	announceOwnerLink();
	void makeEvidence().then(reviewLeftBehind);
}

/** Behind a proxy that speaks https every visit comes from the proxy's own address, unless it names the visitor's. */
function warnOfProxy(): void {
	const { ORIGIN, ADDRESS_HEADER } = process.env;
	if (ORIGIN?.startsWith('https:') && !ADDRESS_HEADER)
		log.warn('ORIGIN is https and ADDRESS_HEADER is not set: behind a proxy, the tries of all visitors at passwords are counted together.');
}

/** Hands the link to whoever started this process, who knows the address and prints it; else it goes to the terminal with the log. */
function announceOwnerLink(): void {
	const path = freshOwnerLink();
	const heard = path !== null && (process as NodeJS.EventEmitter).emit('provewell:owner-link', path);
	if (path !== null && !heard) log.info({ path }, 'There is no owner yet. Whoever opens this path becomes the owner.');
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
	void endWeighing();
}
