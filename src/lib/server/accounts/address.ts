/** Where a visit comes from, by which tries are limited. */
import { log } from '../log.ts';

interface Addressed {
	getClientAddress(): string;
}

/** Shared by all visits of which no address is known, so that none of them goes uncounted. */
const unknown = 'unknown';
let isTold = false;

/** The address of the visitor. Behind a proxy that does not name it as was agreed, one for all of them; the log says so once. */
export function addressOf(visit: Addressed): string {
	try {
		return visit.getClientAddress();
	} catch (error) {
		if (!isTold) log.warn({ error: String(error) }, 'A visit came without its address; tries of all such visits are counted together.');
		isTold = true;
		return unknown;
	}
}
