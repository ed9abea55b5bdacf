/**
 * A record store on loopback, for tests: holds what is sent to it to the Experience API 1.0.3 (part two, sections 2.2 to 2.4 and 4; part
 * three, sections 1.4, 2.1 and 3.3; the tables as read in the specification's text, what the answers mean *from memory*), with rules of its
 * own and not those of the sender, and fails on purpose.
 */
import { once } from 'node:events';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { onTestFinished } from 'vitest';

type Json = Record<string, unknown>;

export const user = 'practice';
export const password = 'seven long planks';

/** What the store does instead of what it should; null: what it should. `lost`: it keeps the statement, and the answer is lost. */
export type Failing = number | 'silent' | 'lost' | { readonly status: number; readonly retryAfter: string } | null;

export interface Store {
	readonly address: string;
	/** By id, as they were taken. */
	readonly kept: Map<string, Json>;
	/** Method and status of each request that was answered, in order. */
	readonly answered: string[];
	/** What was wrong with what came. */
	readonly problems: string[];
	/** Called for each statement that comes, before it is answered. */
	failing: (statementId: string, count: number) => Failing;
	end(): void;
}

/** @param conflicts  answers 409 to a statement that it has, as stores may, and 204 otherwise */
export async function recordStore({ port = 0, conflicts = true } = {}): Promise<Store> {
	const store: Store = {
		address: '',
		kept: new Map(),
		answered: [],
		problems: [],
		failing: () => null,
		end: () => void (server.closeAllConnections(), server.close())
	};
	let count = 0;
	const server = createServer((request, response) => void answer(request, response));
	async function answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
		let body = '';
		for await (const part of request.setEncoding('utf8')) body += part;
		const id = new URL(request.url!, 'http://store').searchParams.get('statementId') ?? '';
		const failing = request.method === 'PUT' ? store.failing(id, count++) : null;
		if (failing === 'silent') return;
		const found = typeof failing === 'number' ? failing : typeof failing === 'object' && failing ? failing.status : null;
		const [status, content] = found ? [found, ''] : taken(request, id, body);
		store.answered.push(`${request.method} ${status}`);
		if (failing === 'lost') return void request.socket.destroy();
		const retry = typeof failing === 'object' && failing ? { 'retry-after': failing.retryAfter } : {};
		response.writeHead(status, { 'x-experience-api-version': '1.0.3', ...retry }).end(content);
	}
	function taken(request: IncomingMessage, id: string, body: string): [number, string] {
		const wrong = wrongHeaders(request);
		if (wrong) return (store.problems.push(wrong), [wrong === 'authorization' ? 401 : 400, wrong]);
		if (request.method === 'GET') return store.kept.has(id) ? [200, JSON.stringify(store.kept.get(id))] : [404, ''];
		const statement = JSON.parse(body) as Json;
		const problem = statement.id === id ? problemOf(statement) : 'the id in the address is another';
		if (problem) return (store.problems.push(problem), [400, problem]);
		if (store.kept.has(id)) return [conflicts ? 409 : 204, ''];
		// Stamped and filled in, as a store does.
		store.kept.set(id, { ...statement, stored: new Date().toISOString(), authority: { account: { homePage: 'http://store', name: 'x' } } });
		return [204, ''];
	}
	server.listen(port, '127.0.0.1');
	await once(server, 'listening');
	onTestFinished(() => store.end());
	return Object.assign(store, { address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/xapi` });
}

function wrongHeaders({ headers, method, url }: IncomingMessage): string | null {
	if (!url!.startsWith('/xapi/statements?statementId=')) return `no such resource: ${url}`;
	if (!/^1\.0(\.\d+)?$/.test(String(headers['x-experience-api-version']))) return 'X-Experience-API-Version';
	if (headers.authorization !== `Basic ${btoa(`${user}:${password}`)}`) return 'authorization';
	if (method === 'PUT' && !/^application\/json\b/.test(headers['content-type'] ?? '')) return 'Content-Type';
	return null;
}

const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[1-5][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;
const isIri = (one: unknown) => typeof one === 'string' && URL.canParse(one);
const isMap = (one: unknown): one is Record<string, string> =>
	typeof one === 'object' &&
	one !== null &&
	Object.entries(one).every(([tag, text]) => /^[a-z]{2}(-[A-Z]{2})?$/.test(tag) && typeof text === 'string');
const more = (one: unknown, allowed: readonly string[]) => Object.keys((one ?? {}) as Json).find((key) => !allowed.includes(key));

/** The first rule that a statement breaks, in words; null where it breaks none. */
export function problemOf(statement: Json): string | null {
	const { id, actor, verb, object, result, context, timestamp } = statement as Record<string, Json>;
	const unknown = more(statement, ['id', 'actor', 'verb', 'object', 'result', 'context', 'timestamp']);
	if (unknown) return `no such property: ${unknown}`;
	if (/:null\b/.test(JSON.stringify(statement))) return 'a value is null';
	if (!uuid.test(String(id))) return 'id is no UUID';
	const account = actor?.account as Json | undefined;
	if (more(actor, ['objectType', 'name', 'account'])) return 'the actor has more than one identifier';
	if (!isIri(account?.homePage) || !account?.name) return 'the actor has no account';
	if (!isIri(verb?.id) || !isMap(verb?.display)) return 'the verb has no IRI or no display';
	if (object?.objectType === 'StatementRef') return uuid.test(String(object.id)) ? null : 'it refers to no statement';
	const definition = object?.definition as Json;
	if (object?.objectType !== 'Activity' || !isIri(object.id)) return 'the object is no activity with an IRI';
	if (!isMap(definition?.name) || !isIri(definition.type)) return 'the activity has no name or no type';
	const { scaled, raw, min, max } = result?.score as Record<string, number>;
	if (!(scaled! >= -1 && scaled! <= 1)) return 'scaled is not within -1 and 1';
	if (!(min! < max! && raw! >= min! && raw! <= max!)) return 'raw is not within min and max';
	if (typeof result!.success !== 'boolean' || typeof result!.completion !== 'boolean') return 'success or completion is no boolean';
	if (!/^PT(\d+H)?(\d+M)?(\d+S)?$/.test(String(result!.duration)) || result!.duration === 'PT') return 'the duration is not ISO 8601';
	if (!uuid.test(String(context?.registration))) return 'the registration is no UUID';
	if (!Object.keys(context!.extensions as Json).every(isIri)) return 'the key of an extension is no IRI';
	return /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/.test(String(timestamp)) ? null : 'the timestamp is not UTC';
}
