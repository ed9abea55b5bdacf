/**
 * The audit trail: what assessors and the server did with cohorts, papers and marks. Rows are only added, and the hash of each covers the
 * one before it, so that a row changed, taken out or put in between shows. Whoever can write to the database file could write the whole
 * chain anew: the head that `cli audit` prints, kept elsewhere, shows that too.
 */
import { asc, desc, eq, gt, inArray } from 'drizzle-orm';
import type { Database } from '../database/open.ts';
import { auditEntry, auditReason, type AuditRow } from '../database/schema.ts';
import { digestOf } from '../digest.ts';

/** What stands in front of the first row. */
export const beginning = '0'.repeat(64);

/** What was done, a word: `paper-set`, `mark-changed`. */
export type AuditKind = AuditRow['kind'];

export interface Entry {
	/** [ms since 1970] */
	readonly at: number;
	/** Id of the account that did it; null for the server itself. */
	readonly by: string | null;
	readonly cohort: string | null;
	readonly kind: AuditKind;
	/** Id of what it was done to. */
	readonly subject: string;
	/** Whatever makes it plain, without names of people or secrets. */
	readonly content: object;
	/** Why, in the words of who did it. They may name people: the row holds their digest, and they are kept beside the trail. */
	readonly reason?: string | undefined;
}

/** Adds one row. To be called in the same transaction as what it tells of. */
export function appendAudit(db: Database, { reason, ...entry }: Entry): void {
	const last = db.select().from(auditEntry).orderBy(desc(auditEntry.seq)).limit(1).get();
	const row = {
		seq: (last?.seq ?? 0) + 1,
		...entry,
		at: new Date(entry.at),
		content: JSON.stringify(reason === undefined ? entry.content : { ...entry.content, reason: digestOf(reason) }),
		previous: last?.hash ?? beginning
	};
	db.insert(auditEntry)
		.values({ ...row, hash: hashOf(row) })
		.run();
	if (reason !== undefined) db.insert(auditReason).values({ entry: row.seq, text: reason }).run();
}

/** The words of the reasons of some rows, by `seq`. One that is not what the row tells of is left out, as is one that is gone. */
export function reasonsOf(db: Database, rows: readonly AuditRow[]): ReadonlyMap<number, string> {
	const told = new Map(rows.map(({ seq, content }) => [seq, (JSON.parse(content) as { reason?: unknown }).reason]));
	const kept = db
		.select()
		.from(auditReason)
		.where(inArray(auditReason.entry, [...told.keys()]))
		.all();
	return new Map(kept.filter(({ entry, text }) => told.get(entry) === digestOf(text)).map(({ entry, text }) => [entry, text]));
}

/** What was done to one thing, the earliest first. */
export const auditOf = (db: Database, subject: string): AuditRow[] =>
	db.select().from(auditEntry).where(eq(auditEntry.subject, subject)).orderBy(asc(auditEntry.seq)).all();

export type Audited =
	| {
			readonly outcome: 'whole';
			readonly rows: number;
			readonly head: string;
			/** Whether the head that was kept is that of some row; left out where none was named. */
			readonly holds?: boolean;
	  }
	| { readonly outcome: 'broken'; readonly at: number; readonly says: string };

/**
 * Goes through the whole chain, some hundreds of rows at a time.
 * @param kept  a head printed before and kept elsewhere: rows taken off the end leave a whole chain that does not hold it
 */
export function verifyAudit(db: Database, kept?: string): Audited {
	let [rows, head] = [0, beginning];
	let holds = kept === beginning;
	// From below the first row: one put in front of it is met as well.
	let last = Number.MIN_SAFE_INTEGER;
	for (;;) {
		const some = db.select().from(auditEntry).where(gt(auditEntry.seq, last)).orderBy(asc(auditEntry.seq)).limit(500).all();
		for (const row of some) {
			const expected = rows + 1;
			if (row.seq < expected) return { outcome: 'broken', at: row.seq, says: `row ${row.seq} stands before the first` };
			if (row.seq > expected) return { outcome: 'broken', at: expected, says: `row ${expected} is missing; the next there is ${row.seq}` };
			if (row.previous !== head) return { outcome: 'broken', at: row.seq, says: `row ${row.seq} does not follow the row before it` };
			if (row.hash !== hashOf(row))
				return { outcome: 'broken', at: row.seq, says: `row ${row.seq} is not what it was when it was written` };
			[rows, head, last] = [row.seq, row.hash, row.seq];
			holds ||= row.hash === kept;
		}
		if (some.length === 0) return { outcome: 'whole', rows, head, ...(kept === undefined ? {} : { holds }) };
	}
}

/** SHA-256 over everything else in the row. As JSON, so that no two rows read alike. */
function hashOf({ seq, at, by, cohort, kind, subject, content, previous }: Omit<AuditRow, 'hash'>): string {
	return digestOf(JSON.stringify([seq, at.getTime(), by, cohort, kind, subject, content, previous]));
}
