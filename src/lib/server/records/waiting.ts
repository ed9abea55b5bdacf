/** What is in the outbox, for whoever owns the server: counts, what is the matter, and trying again. No names of people. */
import { existsSync, statSync } from 'node:fs';
import { count, desc, eq, isNull, sql } from 'drizzle-orm';
import type { SQLiteColumn } from 'drizzle-orm/sqlite-core';
import { voided } from '#shared/assessment/statement-rules.ts';
import { database, type Database } from '../database/open.ts';
import { cohort, outbox, paper, sitting, type OutboxRow } from '../database/schema.ts';
import { sendSoon } from './sending.ts';
import { ownOrigin, recordStore } from './record-settings.ts';
import { statementsFile } from './statements-file.ts';

/** `refused`: kept, and not tried again by itself. */
export type Standing = 'waiting' | 'taken' | 'filed' | 'refused';

export interface Kept extends Pick<OutboxRow, 'id' | 'created' | 'tries' | 'next' | 'problem'> {
	readonly standing: Standing;
	/** Null where the paper is gone. */
	readonly paper: string | null;
	readonly cohort: string | null;
	/** Whether it takes back another. */
	readonly voids: boolean;
}

export interface Records {
	/** Where statements are sent, without what may be secret in the address; null where nothing is set. */
	readonly store: string | null;
	readonly origin: string;
	readonly isOriginSet: boolean;
	readonly counts: Readonly<Record<Standing, number>>;
	/** Those that have not been taken first, and the latest first; no more than `most`. */
	readonly kept: readonly Kept[];
	readonly most: number;
	/** Size of the file [bytes]; null while there is none. */
	readonly fileBytes: number | null;
}

const most = 100;

export function recordsIn(db: Database): Records {
	const rows = db
		.select({ row: outbox, paper: paper.title, cohort: cohort.name })
		.from(outbox)
		.leftJoin(sitting, eq(sitting.id, outbox.sitting))
		.leftJoin(paper, eq(paper.id, sitting.paper))
		.leftJoin(cohort, eq(cohort.id, paper.cohort))
		.orderBy(desc(isNull(outbox.sent)), desc(outbox.created))
		.limit(most)
		.all();
	const store = recordStore();
	const own = ownOrigin();
	const path = statementsFile();
	return {
		store: store && hostOf(store.address),
		origin: own.origin,
		isOriginSet: own.isSet,
		counts: countsIn(db),
		kept: rows.map(({ row: { id, created, tries, next, problem, ...row }, paper, cohort }) => ({
			...{ id, created, tries, next, problem, paper, cohort },
			standing: standingOf({ ...row, next }),
			voids: row.statement.includes(voided)
		})),
		most,
		fileBytes: existsSync(path) ? statSync(path).size : null
	};
}

function countsIn(db: Database): Record<Standing, number> {
	const counts = { waiting: 0, taken: 0, filed: 0, refused: 0 };
	const is = { sent: isSet(outbox.sent), filed: isSet(outbox.filed), next: isSet(outbox.next) };
	const rows = db
		.select({ ...is, many: count() })
		.from(outbox)
		.groupBy(is.sent, is.filed, is.next)
		.all();
	for (const { many, ...row } of rows) counts[standingOf(row)] += many;
	return counts;
}

const isSet = (column: SQLiteColumn) => sql<number>`${column} is not null`;

const standingOf = ({ sent, filed, next }: Readonly<Record<'sent' | 'filed' | 'next', unknown>>): Standing =>
	sent ? 'taken' : next ? 'waiting' : filed ? 'filed' : 'refused';

const hostOf = (address: string) => (URL.canParse(address) ? new URL(address).host : 'an address that is none');

/**
 * Has everything that no store has taken tried again now, as often as at first. What is in the file already is not written there again.
 * @param now [ms since 1970]
 * @returns how many
 */
export function tryAgain(db: Database, now: number): number {
	return db
		.update(outbox)
		.set({ next: new Date(now), tries: 0 })
		.where(isNull(outbox.sent))
		.run().changes;
}

export const records = (): Records => recordsIn(database());

export function sendAgain(now = Date.now()): number {
	const count = tryAgain(database(), now);
	sendSoon();
	return count;
}
