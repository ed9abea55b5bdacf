/** When what a sitting showed may be told. Until then nothing that reaches its learner depends on what is hidden in it. */
import { and, eq, gt, isNull, or } from 'drizzle-orm';
import type { Database } from '../database/open.ts';
import { member, paper, sitting, sittingItem, type PaperRow, type SittingRow } from '../database/schema.ts';
import { isOver } from './allowed.ts';

/** What was played. */
export type Played = { readonly attempt: string } | { readonly drill: string };

/**
 * Formal: when the window ends, for everyone at once. Practice: when the sitting ends.
 * @returns [ms since 1970]; null while that is not known
 */
export function releasedAt({ mode, closes }: Pick<PaperRow, 'mode' | 'closes'>, { ended }: Pick<SittingRow, 'ended'>): number | null {
	return (mode === 'formal' ? closes : ended)?.getTime() ?? null;
}

/** Whether a sitting may be told. @param now [ms since 1970] */
export function isReleased(set: Pick<PaperRow, 'mode' | 'closes'>, sat: Pick<SittingRow, 'ended'>, now: number): boolean {
	const released = releasedAt(set, sat);
	return sat.ended !== null && released !== null && released <= now;
}

/** The sitting that an attempt or a drill belongs to, with its paper and the account of whose it is; undefined for one played for practice. */
export function sittingHolding(db: Database, played: Played) {
	return db
		.select({ sitting, paper, learner: member.learner })
		.from(sittingItem)
		.innerJoin(sitting, eq(sitting.id, sittingItem.sitting))
		.innerJoin(paper, eq(paper.id, sitting.paper))
		.innerJoin(member, eq(member.id, sitting.member))
		.where('attempt' in played ? eq(sittingItem.attempt, played.attempt) : eq(sittingItem.drill, played.drill))
		.get();
}

/** Whether what an attempt or a drill showed must not be told yet. @param now [ms since 1970] */
export function isHeldBack(db: Database, played: Played, now: number): boolean {
	const holding = sittingHolding(db, played);
	return holding !== undefined && !isReleased(holding.paper, holding.sitting, now);
}

/** Whether an attempt or a drill is of a sitting in which nothing can be done any more. @param now [ms since 1970] */
export function isShut(db: Database, played: Played, now: number): boolean {
	const holding = sittingHolding(db, played);
	return holding !== undefined && isOver(holding.sitting, now);
}

/** The same as `isReleased` turned round, as a condition over `sitting` and `paper` joined. @param now [ms since 1970] */
export const heldBack = (now: number) =>
	or(isNull(sitting.ended), and(eq(paper.mode, 'formal'), or(isNull(paper.closes), gt(paper.closes, new Date(now)))));

/** All that a learner played and that must not be told yet, by id. @param now [ms since 1970] */
export function heldOf(db: Database, learnerId: string, now: number): { readonly attempts: Set<string>; readonly drills: Set<string> } {
	const rows = db
		.select({ attempt: sittingItem.attempt, drill: sittingItem.drill })
		.from(member)
		.innerJoin(sitting, eq(sitting.member, member.id))
		.innerJoin(paper, eq(paper.id, sitting.paper))
		.innerJoin(sittingItem, eq(sittingItem.sitting, sitting.id))
		.where(and(eq(member.learner, learnerId), heldBack(now)))
		.all();
	const ids = (of: 'attempt' | 'drill') => new Set(rows.flatMap((row) => row[of] ?? []));
	return { attempts: ids('attempt'), drills: ids('drill') };
}
