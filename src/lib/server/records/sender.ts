/**
 * Sends what waits in the outbox, one after the other. Each step is stored before the next, and each can be done twice without harm: a
 * process killed anywhere goes on at its next start.
 */
import { and, asc, eq, isNotNull, lte, min, notInArray } from 'drizzle-orm';
import { statementRules } from '#shared/assessment/statement-rules.ts';
import type { Database } from '../database/open.ts';
import { outbox, type OutboxRow } from '../database/schema.ts';
import type { RecordStore } from './record-settings.ts';
import type { StatementsFile } from './statements-file.ts';
import { sendStatement, type Sent } from './store-client.ts';

const second = 1000;
const hour = 3600 * second;
/**
 * The first wait, the longest, and how often it is tried before it is filed: judgements of ours. The waits come to 62 hours, so that a store
 * may be down for a weekend.
 */
export const firstWaitMs = 30 * second;
export const longestWaitMs = 6 * hour;
export const mostTries = 20;
const answerWithinMs = 15 * second;
const fileAgainMs = 60 * second;

/** Twice as long after each try, and never longer than the longest. @param tries made so far, from 1 */
export const waitAfter = (tries: number): number => Math.min(longestWaitMs, firstWaitMs * 2 ** (tries - 1));

export interface Sending {
	/** Null where there is none: statements are filed. */
	readonly store: RecordStore | null;
	readonly file: StatementsFile;
	/** [ms since 1970] */
	readonly now?: () => number;
	readonly withinMs?: number;
}

export type Sender = ReturnType<typeof senderIn>;

export function senderIn(db: Database, { store, file, now = Date.now, withinMs = answerWithinMs }: Sending) {
	const set = (id: string, values: Partial<OutboxRow>) => void db.update(outbox).set(values).where(eq(outbox.id, id)).run();

	/** Those that the store failed when this process sent them, the latest at the end. */
	const failed = new Set<string>();

	const due = () => and(isNotNull(outbox.next), lte(outbox.next, new Date(now())));
	const allDue = () => db.select().from(outbox).where(due()).orderBy(asc(outbox.created)).all();

	/** The oldest that has not failed, else the one whose failure lies furthest back: one that fails each time keeps none of the others back. */
	function nextDue(): OutboxRow | undefined {
		const others = and(due(), notInArray(outbox.id, [...failed]));
		const fresh = db.select().from(outbox).where(others).orderBy(asc(outbox.created)).limit(1).get();
		if (fresh) return fresh;
		const left = new Map(allDue().map((row) => [row.id, row]));
		const next = [...failed].find((id) => left.has(id));
		return next === undefined ? undefined : left.get(next);
	}

	/** Writes to the file first: a crash before the rows are marked writes nothing twice. */
	function toFile(rows: readonly OutboxRow[], problem: string | null): void {
		if (rows.length === 0) return;
		try {
			file.append(new Map(rows.map(({ id, statement }) => [id, statement])));
			db.transaction(() => rows.forEach(({ id, filed }) => set(id, { next: null, filed: filed ?? new Date(now()), problem })));
		} catch (error) {
			const why = (error as NodeJS.ErrnoException).code ?? 'no reason given';
			const next = new Date(now() + fileAgainMs);
			const says = `The file of statements cannot be written (${why}).`;
			// What fails these fails the others that are due.
			db.transaction(() => [...rows, ...allDue()].forEach(({ id }) => set(id, { next, problem: says })));
		}
	}

	/** What fails one by no doing of its own would fail all that are due: it counts once for each, and each waits by its own count. */
	function postpone(says: string, afterMs: number): void {
		const at = now();
		const rows = allDue().map((row) => ({ ...row, tries: row.tries + 1 }));
		const waitOf = (tries: number) => Math.min(longestWaitMs, Math.max(waitAfter(tries), afterMs));
		db.transaction(() => rows.forEach(({ id, tries }) => set(id, { tries, next: new Date(at + waitOf(tries)), problem: says })));
		toFile(
			rows.filter(({ tries }) => tries >= mostTries),
			says
		);
	}

	function settle(row: OutboxRow, sent: Sent): void {
		failed.delete(row.id);
		const tries = row.tries + 1;
		if (sent.outcome === 'taken') return set(row.id, { tries, sent: new Date(now()), next: null, problem: null });
		if (sent.outcome === 'refused') return set(row.id, { tries, next: null, problem: sent.says });
		failed.add(row.id);
		postpone(sent.says, sent.afterMs ?? 0);
	}

	return {
		/** Goes through what is due. @param stop  ends it after the statement in hand, whose answer is not waited for */
		async pass(stop: AbortSignal): Promise<void> {
			for (let row = nextDue(); row && !stop.aborted; row = nextDue()) {
				if (!store) {
					toFile([row], null);
					continue;
				}
				const statement = statementRules.safeParse(JSON.parse(row.statement));
				const sent = statement.success
					? await sendStatement(store, statement.data, AbortSignal.any([stop, AbortSignal.timeout(withinMs)]))
					: ({ outcome: 'refused', says: 'This is no statement that a store could take.' } as const);
				// Stopped in the middle, it stays due as it is.
				if (stop.aborted && sent.outcome === 'later') return;
				settle(row, sent);
			}
		},

		/** When something is due next [ms since 1970]; null while nothing waits. */
		nextAt(): number | null {
			return (
				db
					.select({ next: min(outbox.next) })
					.from(outbox)
					.get()
					?.next?.getTime() ?? null
			);
		}
	};
}
