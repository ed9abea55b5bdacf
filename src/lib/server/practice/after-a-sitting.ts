/** What sittings showed goes into the log once it may be told: callouts that were left, and drills that were answered. */
import { database } from '../database/open.ts';
import { reviewLogIn } from '../database/review-log.ts';
import { log } from '../log.ts';
import { sittingHolding } from '../sittings/release.ts';
import { practice } from './practice.ts';

/** Drills that this version can no longer judge, so that they are not asked for at every look. */
const never = new Set<string>();
let underWay: Promise<void> | undefined;

/**
 * Looks for what may be told by now and is not in the log, and puts it there, one after the other. A look that is under way is not doubled.
 * @param now [ms since 1970]
 */
export function reviewReleased(now = Date.now()): Promise<void> {
	underWay ??= reviewAll(now).finally(() => (underWay = undefined));
	return underWay;
}

async function reviewAll(now: number): Promise<void> {
	const db = database();
	const { reviews } = practice();
	const callouts = reviewLogIn(db).unreviewed(now);
	for (const id of callouts.filter((one) => sittingHolding(db, { attempt: one }))) await reviews.settleSoon(id, now);
	for (const id of reviewLogIn(db).unreviewedDrills(now)) await reviewDrill(id, now);
}

async function reviewDrill(id: string, now: number): Promise<void> {
	if (never.has(id)) return;
	try {
		if ((await practice().drills.review(id, now)) === 'over') never.add(id);
	} catch (error) {
		log.error({ drill: id, error: String(error) }, 'What a drill of a sitting showed could not be worked out; the next look tries again.');
	}
}
