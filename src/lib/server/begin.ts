/** What happens when the server starts and stops. */
import { forgetOldSessions, freshOwnerLink } from './accounts/index.ts';
import { closeDatabase, database } from './database/open.ts';
import { settleInQuiet } from './database/settle.ts';
import { endWeighing } from './weighing/weigher.ts';
import { demoExtent, demoParts, demoSoon } from './demo/begin-demo.ts';
import { seedDemo } from './demo/demo.ts';
import { evidenceFor } from './evidence/evidence.ts';
import { fitAtNight } from './fitting/fit-at-night.ts';
import { log } from './log.ts';
import { packs } from './packs/packs.ts';
import { drawLeftBehind } from './papers/papers.ts';
import { reviewLeftBehind } from './practice/after-a-callout.ts';
import { endSending, sendSoon } from './records/outbox.ts';
import { markLeftBehind } from './sheets/marking.ts';
import { watchSittings } from './sittings/watch.ts';

/**
 * Opens the database, brings it up to date and fills it with the demo at the first start; fits the scheduler at night; closes sittings
 * whose time is over, from now on; sends what waits for the record store; says how the first owner signs up while there is none. Then, one
 * after the other and in the background: the evidence tables that are not on disk yet, marks, variants and reviews that the last stop left
 * behind, and the demo's paper.
 * @throws DataFolderProblem, NoScenarios, ScenarioProblems
 */
export function begin(): void {
	seedDemo(demoParts(), demoExtent());
	settleInQuiet(database());
	fitAtNight(database());
	void forgetOldSessions();
	watchSittings(database());
	sendSoon();
	warnOfProxy();
	announceOwnerLink();
	void makeEvidence().then(markLeftBehind).then(drawLeftBehind).then(reviewLeftBehind).then(demoSoon);
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
	void endSending();
	closeDatabase();
	void endWeighing();
}
