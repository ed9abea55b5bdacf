/** What was done to a mark sheet, by whom, when and why; and whether the audit trail tells of it what stands here. */
import { asc, eq, inArray } from 'drizzle-orm';
import { auditOf, reasonsOf } from '../audit/audit.ts';
import type { Database } from '../database/open.ts';
import { itemMark, learner, type AuditRow } from '../database/schema.ts';
import { digestOf } from '../digest.ts';
import type { Sheet } from './sheet.ts';

export interface HistoryLine {
	/** Its row in the audit trail. */
	readonly seq: number;
	readonly at: Date;
	/** Name of the account; null for the server itself. */
	readonly by: string | null;
	readonly did:
		| { readonly kind: 'marked' | 'locked' | 'unlocked' }
		| {
				readonly kind: 'changed';
				readonly slot: number;
				readonly criterion: string | null;
				readonly before: number;
				readonly after: number;
		  }
		| { readonly kind: 'second'; readonly agrees: boolean };
	/** The reason given, or the note; null where none is asked for. */
	readonly why: string | null;
}

export interface History {
	readonly lines: readonly HistoryLine[];
	/** Whether results, changes, second markings and reasons are those that the trail tells of. */
	readonly agrees: boolean;
}

/** An account that is gone since has no name any more. */
const nobody = 'an account that is gone';

/** Names of accounts by id. */
export function namesOf(db: Database, ids: Iterable<string | null>): (id: string | null) => string | null {
	const wanted = [...new Set(ids)].filter((id) => id !== null);
	const rows = db.select({ id: learner.id, name: learner.name }).from(learner).where(inArray(learner.id, wanted)).all();
	const names = new Map(rows.map(({ id, name }) => [id, name]));
	return (id) => (id === null ? null : (names.get(id) ?? nobody));
}

/** What the trail says of a sheet in the place of reason and note: the texts themselves stand with the marks, and may name people. */
export const contentOf = {
	marked: (contents: readonly string[], got: readonly number[]) => ({ got, results: digestOf(JSON.stringify(contents)) }),
	changed: ({
		slot,
		criterion,
		before,
		after,
		reason
	}: Pick<Sheet['changes'][number], 'slot' | 'criterion' | 'before' | 'after' | 'reason'>) => ({
		slot,
		criterion,
		before,
		after,
		reason: digestOf(reason)
	}),
	second: ({ agrees, note, lastChange }: Pick<Sheet['seconds'][number], 'agrees' | 'note' | 'lastChange'>) => ({
		agrees,
		lastChange,
		note: digestOf(note)
	})
};

export function historyOf(db: Database, sheet: Sheet): History {
	const rows = auditOf(db, sheet.sitting.id);
	const name = namesOf(
		db,
		rows.map(({ by }) => by)
	);
	const explained = rows.filter(({ kind, content }) => isOfLock(kind) && 'reason' in (JSON.parse(content) as object));
	const reasons = reasonsOf(db, explained);
	const changes = rows.filter(({ kind }) => kind === 'mark-changed');
	const seconds = rows.filter(({ kind }) => kind === 'second-marked');
	const lines = rows.flatMap((row): HistoryLine[] => {
		const line = (did: HistoryLine['did'], why: string | null = null): HistoryLine[] => [
			{ seq: row.seq, at: row.at, by: name(row.by), did, why }
		];
		switch (row.kind) {
			case 'sitting-marked':
				return line({ kind: 'marked' });
			case 'sheet-locked':
				return line({ kind: 'locked' }, reasons.get(row.seq) ?? null);
			case 'sheet-unlocked':
				return line({ kind: 'unlocked' }, reasons.get(row.seq) ?? null);
			case 'mark-changed': {
				const change = sheet.changes[changes.indexOf(row)];
				if (!change) return [];
				const { slot, criterion, before, after, reason } = change;
				return line({ kind: 'changed', slot, criterion, before, after }, reason);
			}
			case 'second-marked': {
				const said = sheet.seconds[seconds.indexOf(row)];
				return said ? line({ kind: 'second', agrees: said.agrees }, said.note) : [];
			}
			default:
				return [];
		}
	});
	return { lines, agrees: reasons.size === explained.length && trailAgrees(db, sheet, rows, changes, seconds) };
}

const isOfLock = (kind: AuditRow['kind']) => kind === 'sheet-locked' || kind === 'sheet-unlocked';

function trailAgrees(
	db: Database,
	sheet: Sheet,
	rows: readonly AuditRow[],
	changes: readonly AuditRow[],
	seconds: readonly AuditRow[]
): boolean {
	const kept = db.select().from(itemMark).where(eq(itemMark.sitting, sheet.sitting.id)).orderBy(asc(itemMark.slot)).all();
	const marked = contentOf.marked(
		kept.map(({ content }) => content),
		kept.map(({ got }) => got)
	);
	const told = rows.filter(({ kind }) => kind === 'sitting-marked').map(({ content }) => content);
	return (
		same(told, [marked]) &&
		same(
			changes.map(({ content }) => content),
			sheet.changes.map(contentOf.changed)
		) &&
		same(
			seconds.map(({ content }) => content),
			sheet.seconds.map(contentOf.second)
		)
	);
}

const same = (told: readonly string[], stands: readonly object[]) =>
	told.length === stands.length && told.every((content, index) => content === JSON.stringify(stands[index]));
