/**
 * One statement to a record store. It is put under its own id, so that sending it again, after a crash or a lost answer, leaves one.
 * @see Experience API specification 1.0.3, part three, sections 1.4, 2.1 and 3.3: what the answers mean *from memory*
 */
import { z } from 'zod';
import type { Statement } from '#shared/assessment/statement-rules.ts';
import type { RecordStore } from './record-settings.ts';

export type Sent =
	| { readonly outcome: 'taken' }
	/** Of the statement itself: it would never pass. */
	| { readonly outcome: 'refused'; readonly says: string }
	/** Of the store, the way to it or the settings: worth trying again, after so long where the store says. */
	| { readonly outcome: 'later'; readonly says: string; readonly afterMs: number | null };

const version = '1.0.3';
/** Answers that blame what was sent, and not who sent it, where to, or when. */
const refusals: ReadonlySet<number> = new Set([400, 406, 411, 413, 414, 415, 422]);
const later = (says: string, afterMs: number | null = null): Sent => ({ outcome: 'later', says, afterMs });

/** @param signal  gives up; an answer that comes after it is not heard, and the statement is sent again */
export async function sendStatement(store: RecordStore, statement: Statement, signal: AbortSignal): Promise<Sent> {
	try {
		const answer = await ask(store, statement.id, signal, { method: 'PUT', body: JSON.stringify(statement) });
		await answer.body?.cancel();
		if (answer.status === 200 || answer.status === 204) return { outcome: 'taken' };
		if (answer.status === 409) return await sameThere(store, statement, signal);
		if (refusals.has(answer.status)) return { outcome: 'refused', says: `The store does not take this statement (${answer.status}).` };
		return later(saysOf(answer.status), retryAfterMs(answer.headers.get('retry-after')));
	} catch (error) {
		return later(reasonOf(error));
	}
}

/** The store has one by this id: whether it is this one, taken at an earlier try whose answer was lost. */
async function sameThere(store: RecordStore, statement: Statement, signal: AbortSignal): Promise<Sent> {
	const answer = await ask(store, statement.id, signal, { method: 'GET' });
	if (answer.status >= 500) return later(saysOf(answer.status));
	const kept = answer.status === 200 ? essence.safeParse(await answer.json()) : null;
	const isSame = kept?.success && JSON.stringify(kept.data) === JSON.stringify(essence.parse(statement));
	return isSame
		? { outcome: 'taken' }
		: { outcome: 'refused', says: 'The store holds another statement under the id of this one, and keeps that (409).' };
}

/** What a store keeps as it was sent; stamps and language maps may come back written in another way. */
const essence = z.object({
	id: z.string().toLowerCase(),
	actor: z.object({ account: z.object({ homePage: z.string(), name: z.string() }) }),
	verb: z.object({ id: z.string() }),
	object: z.object({ id: z.string() }),
	result: z.object({ score: z.object({ raw: z.number(), max: z.number() }), success: z.boolean() }).optional()
});

function ask(store: RecordStore, id: string, signal: AbortSignal, request: RequestInit): Promise<Response> {
	const headers: Record<string, string> = {
		'x-experience-api-version': version,
		'content-type': 'application/json',
		accept: 'application/json'
	};
	if (store.user !== null) headers.authorization = `Basic ${Buffer.from(`${store.user}:${store.password}`, 'utf8').toString('base64')}`;
	// Followed elsewhere, the password would go along.
	return fetch(`${store.address}/statements?statementId=${id}`, { ...request, headers, signal, redirect: 'manual' });
}

function saysOf(status: number): string {
	if (status === 401 || status === 403) return `The store does not know this server, or not by this password (${status}).`;
	if (status === 404 || status === 405 || (status >= 300 && status < 400)) return `There is no record store at this address (${status}).`;
	return `The store answered ${status}.`;
}

/** Seconds; a date, which the header may hold as well, is not waited for. */
function retryAfterMs(header: string | null): number | null {
	return header !== null && /^\d{1,6}$/.test(header) ? Number(header) * 1000 : null;
}

/** Without the address, which may hold a secret in its path. */
function reasonOf(error: unknown): string {
	const { name, cause, code } = error as Error & { code?: string };
	if (name === 'TimeoutError') return 'The store did not answer in time.';
	if (name === 'AbortError') return 'The server stopped while it was sent.';
	const why = (cause as { code?: string } | undefined)?.code ?? code;
	if (why === 'ECONNREFUSED') return 'Nothing answers at the store’s address.';
	if (why === 'ERR_INVALID_URL') return 'PROVEWELL_RECORD_STORE is no web address.';
	return `The store could not be reached${why ? ` (${why})` : ''}.`;
}
