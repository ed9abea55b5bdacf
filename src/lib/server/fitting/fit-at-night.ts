/** Fits the scheduler by itself: at most once in a night, when there is something new to fit and nobody is at work. */
import { dayOf } from '#shared/review/memory/learner-day.ts';
import { schedulerVersion } from '#shared/review/memory/schedule.ts';
import { fitsIn } from '../database/fits.ts';
import type { Database } from '../database/open.ts';
import { fitEveryone } from './fitting.ts';
import { log } from '../log.ts';

const minuteMs = 60_000;
/** Looks this often. */
const everyMs = 10 * minuteMs;
/** Nobody has done anything for so long. */
const quietMs = 15 * minuteMs;

/**
 * Whether it is time: the first quiet moment after 04:00 of a day of the server's clock, so that a machine that is off at night fits too,
 * and only where the log has grown since the last fit.
 * @param lines the log's length at the last fit of this process, so that it is not read again for the same
 * @param zone  in which days turn
 */
export function isTimeToFit(db: Database, now: number, lines: number, zone = Intl.DateTimeFormat().resolvedOptions().timeZone): boolean {
	const fits = fitsIn(db);
	const done = fits.lastDone();
	if (!done || now - done.getTime() < quietMs || fits.lastLine() <= lines) return false;
	const last = fits.latest(null, schedulerVersion);
	if (last && dayOf(last.at.getTime(), zone) >= dayOf(now, zone)) return false;
	return !last || fits.hasSince(last.at);
}

/** Looks from time to time, until the database is closed. What fails is logged, and tried again the next night. */
export function fitAtNight(db: Database): void {
	let lines = 0;
	let busy = false;
	const timer = setInterval(async () => {
		if (!db.$client.open) return clearInterval(timer);
		if (busy) return;
		busy = true;
		try {
			const now = Date.now();
			if (!isTimeToFit(db, now, lines)) return;
			lines = fitsIn(db).lastLine();
			const tried = await fitEveryone(db, now);
			const kept = tried.filter(({ chosen }) => chosen === 'fit').length;
			log.info({ tried: tried.length, kept }, 'The scheduler was fitted to the log.');
		} catch (error) {
			log.error({ error: String(error) }, 'The scheduler could not be fitted; what was in force stays so.');
		} finally {
			busy = false;
		}
	}, everyMs);
	timer.unref();
}
