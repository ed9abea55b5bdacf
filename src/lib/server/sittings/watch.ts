/**
 * Looks after the sittings that nobody looks at: closes those whose time is over, has those marked again that could not be, and puts what may
 * be told by now into the log.
 */
import type { Database } from '../database/open.ts';
import { log } from '../log.ts';
import { reviewReleased } from '../practice/after-a-sitting.ts';
import { markLeftBehind } from '../sheets/marking.ts';
import { closeOverdue } from './closing.ts';

const closeEveryMs = 3_000;
/** A window that ends is noticed this late at most. */
const reviewEveryMs = 15_000;
/** The least time that what could not be marked is left alone; the marking itself waits longer with every failure. */
const markEveryMs = 60_000;

/** Closes what ran out while the server was down, and looks from then on until the database is closed. */
export function watchSittings(db: Database): void {
	const close = () => void closeOverdue(db, Date.now());
	void safely(close, 'Sittings whose time is over could not be closed');
	every(db, closeEveryMs, close, 'Sittings whose time is over could not be closed');
	every(db, reviewEveryMs, () => reviewReleased(), 'What sittings showed could not be put into the log');
	every(db, markEveryMs, markLeftBehind, 'Sittings without marks could not be looked for');
}

/** @param failed  what the log says when it fails */
function every(db: Database, ms: number, look: () => void | Promise<void>, failed: string): void {
	const timer = setInterval(() => (db.$client.open ? void safely(look, failed) : clearInterval(timer)), ms);
	timer.unref();
}

async function safely(look: () => void | Promise<void>, failed: string): Promise<void> {
	try {
		await look();
	} catch (error) {
		log.error({ error: String(error) }, `${failed}; the next look tries again.`);
	}
}
