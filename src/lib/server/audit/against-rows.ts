/**
 * The audit trail held against what it tells of: marks, their changes, locked sheets, and papers as they were set. The trail alone would be
 * whole while somebody with the file altered what the results are worked out from.
 */
import { asc, eq, inArray } from 'drizzle-orm';
import { isDeepStrictEqual } from 'node:util';
import type { ItemResult } from '#shared/assessment/result.ts';
import { groupBy } from '#shared/quantity/group-by.ts';
import type { Database } from '../database/open.ts';
import {
	auditEntry,
	cohort,
	itemMark,
	markChange,
	paper,
	secondMarking,
	sitting,
	type AuditRow,
	type ItemMarkRow,
	type PaperRow,
	type SittingRow
} from '../database/schema.ts';
import { termsOf } from '../papers/kept-paper.ts';
import { contentOf } from '../sheets/history.ts';
import { sheetOf } from '../sheets/sheet.ts';
import { worth } from '../sheets/worth.ts';
import type { AuditKind } from './audit.ts';

/** What is not as the trail tells of it. */
export interface Altered {
	/** The row that tells of it otherwise; null where none tells of it at all. */
	readonly row: number | null;
	readonly says: string;
}

/** All that is not as a whole trail tells of it; none where everything is. */
export function alteredRows(db: Database): Altered[] {
	return [...alteredSittings(db), ...alteredPapers(db)];
}

/** The rows of some kinds by what they concern, the earliest first. */
function toldOf(db: Database, kinds: readonly AuditKind[]): Map<string, AuditRow[]> {
	const rows = db
		.select()
		.from(auditEntry)
		.where(inArray(auditEntry.kind, [...kinds]))
		.orderBy(asc(auditEntry.seq))
		.all();
	return groupBy(rows, ({ subject }) => subject);
}

/** Whether what a row tells of may be gone: only what was invented is ever taken away, and then a later row says so. */
function wentWithTheDemo(db: Database, { seq, cohort: id }: AuditRow): boolean {
	const about = db
		.select()
		.from(auditEntry)
		.where(inArray(auditEntry.kind, ['cohort-made', 'demo-cleared']))
		.all();
	const isThere = id !== null && db.select().from(cohort).where(eq(cohort.id, id)).get() !== undefined;
	const wasMade = about.some((row) => row.kind === 'cohort-made' && row.subject === id);
	return !isThere && !wasMade && about.some((row) => row.kind === 'demo-cleared' && row.seq > seq);
}

function alteredSittings(db: Database): Altered[] {
	const told = toldOf(db, ['sitting-marked', 'mark-changed', 'second-marked', 'sheet-locked', 'sheet-unlocked']);
	const sat = new Map(
		db
			.select()
			.from(sitting)
			.all()
			.map((row) => [row.id, row])
	);
	const items = groupBy(db.select().from(itemMark).orderBy(asc(itemMark.slot)).all(), (row) => row.sitting);
	const changes = groupBy(db.select().from(markChange).orderBy(asc(markChange.id)).all(), (row) => row.sitting);
	const seconds = groupBy(db.select().from(secondMarking).orderBy(asc(secondMarking.id)).all(), (row) => row.sitting);
	return [...new Set([...told.keys(), ...sat.keys()])].flatMap((id): Altered[] => {
		const rows = told.get(id) ?? [];
		const of = (kind: AuditKind) => rows.filter((row) => row.kind === kind);
		const one = sat.get(id);
		if (!one) return wentWithTheDemo(db, rows[0]!) ? [] : [{ row: rows[0]!.seq, says: `the sitting ${id} is gone` }];
		return [
			...alteredMarks(one, of('sitting-marked'), items.get(id) ?? []),
			...inTurn(`a changed mark of the sitting ${id}`, of('mark-changed'), changes.get(id) ?? [], contentOf.changed),
			...inTurn(`what a second marker said of the sitting ${id}`, of('second-marked'), seconds.get(id) ?? [], contentOf.second),
			...alteredLock(db, one, rows.filter(({ kind }) => kind === 'sheet-locked' || kind === 'sheet-unlocked').at(-1))
		];
	});
}

function alteredMarks({ id, marked }: SittingRow, told: readonly AuditRow[], items: readonly ItemMarkRow[]): Altered[] {
	const [row, ...more] = told;
	if (!row)
		return marked === null && items.length === 0 ? [] : [{ row: null, says: `the sitting ${id} has marks, and no row tells of them` }];
	const content = contentOf.marked(
		items.map((item) => item.content),
		items.map(({ got }) => got)
	);
	const isSame = row.content === JSON.stringify(content) && marked?.getTime() === row.at.getTime() && items.every(isOutOfItsOwn);
	return isSame && more.length === 0 ? [] : [{ row: row.seq, says: `the marks of the sitting ${id} are not those that were given` }];
}

/** What a mark is out of stands in the result that the trail has the digest of. */
function isOutOfItsOwn({ content, outOf }: ItemMarkRow): boolean {
	try {
		return worth(JSON.parse(content) as ItemResult).outOf === outOf;
	} catch {
		return false;
	}
}

/** Rows that were added one by one, each with a row of the trail. */
function inTurn<Row extends { readonly by: string; readonly at: Date }>(
	what: string,
	told: readonly AuditRow[],
	rows: readonly Row[],
	contentOf: (row: Row) => object
): Altered[] {
	const altered = told.flatMap((entry, at): Altered[] => {
		const row = rows[at];
		const isSame =
			row !== undefined &&
			entry.content === JSON.stringify(contentOf(row)) &&
			entry.by === row.by &&
			entry.at.getTime() === row.at.getTime();
		return isSame ? [] : [{ row: entry.seq, says: `${what} is ${row ? 'not what it was' : 'gone'}` }];
	});
	return rows.length > told.length ? [...altered, { row: null, says: `no row tells of ${what}` }] : altered;
}

function alteredLock(db: Database, { id, locked, lockedBy }: SittingRow, told: AuditRow | undefined): Altered[] {
	if (told?.kind !== 'sheet-locked')
		return locked === null ? [] : [{ row: told?.seq ?? null, says: `the sheet of the sitting ${id} is locked, and nobody locked it` }];
	if (locked?.getTime() !== told.at.getTime() || lockedBy !== told.by)
		return [{ row: told.seq, says: `the sheet of the sitting ${id} is not locked as it was` }];
	const { got, outOf, percent, passed } = JSON.parse(told.content) as Record<string, unknown>;
	const outcome = outcomeOfSheet(db, id);
	const isSame = outcome?.got === got && outcome?.outOf === outOf && outcome?.percent === percent && outcome?.passed === passed;
	return isSame ? [] : [{ row: told.seq, says: `the result of the sitting ${id} is not the one that was locked` }];
}

/** Null where nothing can be worked out from what is kept any more. */
function outcomeOfSheet(db: Database, id: string) {
	try {
		return sheetOf(db, id)?.outcome ?? null;
	} catch {
		return null;
	}
}

function alteredPapers(db: Database): Altered[] {
	const told = toldOf(db, ['paper-set', 'window-changed', 'mark-taken']);
	const papers = new Map(
		db
			.select()
			.from(paper)
			.all()
			.map((row) => [row.id, row])
	);
	const invented = new Set(
		db
			.select({ id: cohort.id })
			.from(cohort)
			.where(eq(cohort.invented, true))
			.all()
			.map(({ id }) => id)
	);
	return [...new Set([...told.keys(), ...papers.keys()])].flatMap((id): Altered[] => {
		const rows = told.get(id) ?? [];
		const set = rows.find(({ kind }) => kind === 'paper-set');
		const row = papers.get(id);
		if (!row) return wentWithTheDemo(db, rows[0]!) ? [] : [{ row: rows[0]!.seq, says: `the paper ${id} is gone` }];
		if (invented.has(row.cohort) && (!set || 'invented' in JSON.parse(set.content))) return [];
		if (!set) return row.set === null ? [] : [{ row: null, says: `the paper ${id} is set, and no row tells of it` }];
		const wrong = termsAltered(db, row, set, rows);
		return wrong === null ? [] : [{ row: wrong.seq, says: `the paper ${id} is not as it was set: ${wrong.what}` }];
	});
}

type Terms = ReturnType<typeof termsOf>;

/** The first of a paper's terms that is not what the rows make of it, and the row that tells of it. */
function termsAltered(db: Database, row: PaperRow, set: AuditRow, rows: readonly AuditRow[]): { seq: number; what: string } | null {
	if (row.set?.getTime() !== set.at.getTime()) return { seq: set.seq, what: 'when it was set' };
	const later = (kind: AuditKind) => rows.filter((one) => one.kind === kind && one.seq > set.seq).at(-1);
	const [moved, taken] = [later('window-changed'), later('mark-taken')];
	const terms = JSON.parse(set.content) as Terms;
	const expected: Record<string, unknown> = {
		...terms,
		...(moved && { closes: (JSON.parse(moved.content) as { to: unknown }).to }),
		...(taken && { passRule: { ...terms.passRule, mark: (JSON.parse(taken.content) as { after: number }).after } })
	};
	const told: Readonly<Record<string, AuditRow | undefined>> = { closes: moved, passRule: taken };
	const kept = termsKept(db, row);
	const what = Object.keys(expected).find((term) => !isDeepStrictEqual(kept?.[term], expected[term]));
	return what === undefined ? null : { seq: (told[what] ?? set).seq, what: termNames[what] ?? what };
}

/** As they would be written into the trail; null where what is kept can be read no more. */
function termsKept(db: Database, row: PaperRow): Readonly<Record<string, unknown>> | null {
	try {
		return JSON.parse(JSON.stringify(termsOf(db, row))) as Record<string, unknown>;
	} catch {
		return null;
	}
}

const termNames: Readonly<Record<string, string>> = {
	opens: 'when it opens',
	closes: 'when it closes',
	passRule: 'what it takes to pass',
	blueprint: 'what it asks for',
	variants: 'its variants'
};
