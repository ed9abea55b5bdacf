/** A running server with a cohort, learners who are signed in, and a paper, for the tests that break sittings. */
import { asc, eq } from 'drizzle-orm';
import { openDatabase, type Database } from '$lib/server/database/open.ts';
import { attempt, paper, sitting, sittingEvent, sittingItem } from '$lib/server/database/schema.ts';
import { joinCohort, makeCohort, makePaper, type PaperChoice } from '../papers.ts';
import { runServer, type RunningServer } from '../running-server.ts';
import { addSignedIn } from '../signed-in.ts';
import type { Answer, Visitor } from '../visitor.ts';

export interface Room {
	readonly folder: string;
	/** The data folder's database, open beside the server. */
	readonly db: Database;
	server: RunningServer;
	readonly cohort: string;
	readonly paper: string;
	readonly people: readonly { readonly id: string; readonly visitor: Visitor; readonly member: string }[];
}

/** Starts a server on a folder in which so many learners are on a register, and a paper is set for them. */
export async function openRoom(folder: string, names: readonly string[], choice: Partial<PaperChoice> = {}): Promise<Room> {
	const server = await runServer(folder);
	const db = openDatabase(folder);
	const cohort = makeCohort(db);
	const people = names.map((name) => {
		const one = addSignedIn(db, server.address, name);
		return { ...one, member: joinCohort(db, cohort, one.id) };
	});
	return { folder, db, server, cohort, paper: makePaper(db, { cohort, ...choice }), people };
}

/** The page that an answer leads to. */
export const leadsTo = ({ headers }: Answer): string => /^location: (\S+)$/m.exec(headers)?.[1] ?? '';

/** Begins the paper. @returns the sitting's path */
export async function begin({ paper }: Room, visitor: Visitor): Promise<string> {
	const begun = await visitor.post(`/papers/${paper}?/begin`, {});
	if (begun.status !== 303) throw new Error(`${begun.status} ${begun.body}`);
	return leadsTo(begun);
}

/** Goes to an item. @returns its path */
export async function goTo(visitor: Visitor, sittingPath: string, slot: number): Promise<string> {
	return leadsTo(await visitor.post(`${sittingPath}?/go`, { slot: String(slot) }));
}

export const act = (visitor: Visitor, path: string, seq: number, fields: Record<string, string>) =>
	visitor.post(`${path}?/act`, { seq: String(seq), ...fields });

export const sittingAt = ({ db }: Room, path: string) =>
	db
		.select()
		.from(sitting)
		.where(eq(sitting.id, path.split('/').at(-1)!))
		.get()!;

/** What happened at it, in order. */
export const eventsAt = ({ db }: Room, path: string): string[] =>
	db
		.select()
		.from(sittingEvent)
		.where(eq(sittingEvent.sitting, path.split('/').at(-1)!))
		.orderBy(asc(sittingEvent.id))
		.all()
		.map(({ kind }) => kind);

/** Lets a sitting's minutes be over. */
export function runOut({ db }: Room, path: string, at = Date.now()): void {
	db.update(sitting)
		.set({ deadline: new Date(at) })
		.where(eq(sitting.id, path.split('/').at(-1)!))
		.run();
}

/** Lets the window of the paper be over. */
export function endWindow({ db, paper: id }: Room): void {
	db.update(paper)
		.set({ closes: new Date(Date.now() - 1) })
		.where(eq(paper.id, id))
		.run();
}

export const playedIn = ({ db }: Room, path: string) =>
	db
		.select({ slot: sittingItem.slot, attempt: sittingItem.attempt, drill: sittingItem.drill, fault: attempt.fault, seed: attempt.seed })
		.from(sittingItem)
		.leftJoin(attempt, eq(attempt.id, sittingItem.attempt))
		.where(eq(sittingItem.sitting, path.split('/').at(-1)!))
		.all();

/** A page without what is drawn anew for every answer. */
export const steady = (text: string): string => text.replaceAll(/nonce[-=]"?[\w+/=-]+/g, 'NONCE');

/** Where two texts part, with some words around; null where they are alike. */
export function firstDifference(one: string, other: string): string | null {
	if (one === other) return null;
	let at = 0;
	while (one[at] === other[at]) at++;
	return [one, other].map((text) => text.slice(Math.max(0, at - 120), at + 120)).join('\n<>\n');
}

export async function closeRoom({ db, server }: Room): Promise<void> {
	db.$client.close();
	await server.end();
}
