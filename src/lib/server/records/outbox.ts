/** Statements on their way to a record store: queued with what they tell of, kept until the store has taken them or they are filed. */
import { randomUUID } from 'node:crypto';
import { isDeepStrictEqual } from 'node:util';
import { asc, eq } from 'drizzle-orm';
import { statementOf, voidingOf } from '#shared/assessment/statement.ts';
import { statementRules, type Statement } from '#shared/assessment/statement-rules.ts';
import type { Database } from '../database/open.ts';
import { outbox } from '../database/schema.ts';
import { ownOrigin } from './record-settings.ts';
import { satPaper } from './sat-paper.ts';

export { endSending, sendSoon } from './sending.ts';

/**
 * Queues what a sitting came to, to be called in the transaction that locks its sheet. Locked anew with other marks, the statement told
 * before is taken back by one of its own; with the same, nothing is told again. Nothing is told of an invented cohort.
 * @param now [ms since 1970]
 */
export function queueStatement(db: Database, sittingId: string, now: number): void {
	const sat = satPaper(db, sittingId);
	if (!sat) return;
	const { origin } = ownOrigin();
	const statement = statementOf({ ...sat, id: randomUUID(), origin });
	const before = lastTold(db, sittingId);
	if (before && tellsTheSame(before, statement)) return;
	if (before) queue(db, sittingId, voidingOf(randomUUID(), before.id, before.actor.account.homePage, new Date(now).toISOString()), now);
	queue(db, sittingId, statement, now);
}

function queue(db: Database, sitting: string, statement: Statement, now: number): void {
	const at = new Date(now);
	db.insert(outbox)
		.values({ id: statement.id, sitting, statement: JSON.stringify(statement), created: at, next: at })
		.run();
}

/** The result that stands in the outbox for a sitting, the latest. */
function lastTold(db: Database, sittingId: string): Statement | undefined {
	const rows = db.select().from(outbox).where(eq(outbox.sitting, sittingId)).orderBy(asc(outbox.created)).all();
	const statements = rows.flatMap(({ statement }) => statementRules.safeParse(JSON.parse(statement)).data ?? []);
	return statements.findLast(({ object }) => object.objectType === 'Activity');
}

const tellsTheSame = (one: Statement, other: Statement) => isDeepStrictEqual({ ...one, id: null }, { ...other, id: null });
