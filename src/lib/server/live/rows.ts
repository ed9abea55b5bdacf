/** What the live view is made of, as one look at the database finds it. */
import { and, asc, eq, inArray, isNull, or, sql } from 'drizzle-orm';
import type { Database } from '../database/open.ts';
import {
	action,
	attempt,
	cohort,
	cohortAssessor,
	drill,
	learner,
	member,
	paper,
	session,
	sitting,
	sittingEvent,
	sittingItem,
	type PaperRow,
	type SittingEventRow,
	type SittingRow
} from '../database/schema.ts';

/** An item of a sitting that was begun. Times in ms since 1970. */
export interface BegunItem {
	readonly sitting: string;
	readonly slot: number;
	readonly kind: 'callout' | 'drill';
	/** Of the attempt or the drill, and of whom it belongs to. */
	readonly id: string;
	readonly learner: string;
	readonly began: number;
	/** When the visit was over, or the drill answered. */
	readonly ended: number | null;
	/** Actions of a callout so far, and when the last was done. */
	readonly actions: number;
	readonly lastAt: number | null;
}

export interface Rows {
	readonly paper: PaperRow;
	/** By name; those who left are in it where they sat. */
	readonly members: readonly { readonly id: string; readonly name: string; readonly hasJoined: boolean; readonly hasLeft: boolean }[];
	/** Of each member the latest. */
	readonly sittings: readonly SittingRow[];
	readonly items: readonly BegunItem[];
	readonly events: readonly SittingEventRow[];
}

/** A paper's rows; null where there is no such paper. To be read in one transaction, so that they belong together. */
export function rowsOf(db: Database, paperId: string): Rows | null {
	const row = db.select().from(paper).where(eq(paper.id, paperId)).get();
	if (!row) return null;
	const all = db.select().from(sitting).where(eq(sitting.paper, paperId)).orderBy(asc(sitting.number)).all();
	const sittings = [...new Map(all.map((one) => [one.member, one])).values()];
	const ids = sittings.map(({ id }) => id);
	const sat = sittings.map((one) => one.member);
	const members = db
		.select({ id: member.id, name: member.name, learner: member.learner, left: member.left })
		.from(member)
		.where(and(eq(member.cohort, row.cohort), or(isNull(member.left), inArray(member.id, sat))))
		.orderBy(asc(member.name), asc(member.id))
		.all();
	return {
		paper: row,
		members: members.map(({ id, name, learner, left }) => ({ id, name, hasJoined: learner !== null, hasLeft: left !== null })),
		sittings,
		items: [...calloutsOf(db, ids), ...drillsOf(db, ids)],
		events: db.select().from(sittingEvent).where(inArray(sittingEvent.sitting, ids)).orderBy(asc(sittingEvent.id)).all()
	};
}

function calloutsOf(db: Database, sittings: readonly string[]): BegunItem[] {
	const latest = sql`(select max(seq) from ${action} as earlier where earlier.attempt = ${attempt.id})`;
	return db
		.select({
			sitting: sittingItem.sitting,
			slot: sittingItem.slot,
			id: attempt.id,
			learner: attempt.learner,
			began: attempt.created,
			ended: attempt.ended,
			seq: action.seq,
			lastAt: action.at
		})
		.from(sittingItem)
		.innerJoin(attempt, eq(attempt.id, sittingItem.attempt))
		.leftJoin(action, and(eq(action.attempt, attempt.id), eq(action.seq, latest)))
		.where(inArray(sittingItem.sitting, sittings))
		.all()
		.map(({ began, ended, seq, lastAt, ...one }) => ({
			...one,
			kind: 'callout',
			began: began.getTime(),
			ended: ended?.getTime() ?? null,
			actions: (seq ?? -1) + 1,
			lastAt: lastAt?.getTime() ?? null
		}));
}

function drillsOf(db: Database, sittings: readonly string[]): BegunItem[] {
	return db
		.select({
			sitting: sittingItem.sitting,
			slot: sittingItem.slot,
			id: drill.id,
			learner: drill.learner,
			began: drill.created,
			ended: drill.answered
		})
		.from(sittingItem)
		.innerJoin(drill, eq(drill.id, sittingItem.drill))
		.where(inArray(sittingItem.sitting, sittings))
		.all()
		.map(({ began, ended, ...one }) => ({
			...one,
			kind: 'drill',
			began: began.getTime(),
			ended: ended?.getTime() ?? null,
			actions: 0,
			lastAt: null
		}));
}

/** Those of some browser sessions that may still watch a paper: signed in, and an assessor who keeps its cohort. @param now [ms since 1970] */
export function mayStillWatch(db: Database, paperId: string, sessions: readonly string[], now: number): ReadonlySet<string> {
	const kept = and(eq(cohortAssessor.cohort, paper.cohort), eq(cohortAssessor.assessor, learner.id));
	const found = db
		.select({ id: session.id })
		.from(session)
		.innerJoin(learner, eq(learner.id, session.userId))
		.innerJoin(paper, eq(paper.id, paperId))
		.innerJoin(cohort, eq(cohort.id, paper.cohort))
		.leftJoin(cohortAssessor, kept)
		.where(
			and(
				inArray(session.id, [...sessions]),
				sql`${session.expiresAt} > ${Math.floor(now / 1000)}`,
				inArray(learner.role, ['assessor', 'owner']),
				or(eq(cohort.invented, true), eq(cohortAssessor.assessor, learner.id))
			)
		)
		.all();
	return new Set(found.map(({ id }) => id));
}
