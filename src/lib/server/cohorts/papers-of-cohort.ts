/** The papers of a cohort in a line each. */
import { and, count, desc, eq, isNotNull } from 'drizzle-orm';
import type { Database } from '../database/open.ts';
import { paper, sitting, type PaperRow } from '../database/schema.ts';

/** `waiting`: set, and its window has not begun. */
export type PaperState = 'draft' | 'waiting' | 'open' | 'closed';

export interface PaperLine {
	readonly id: string;
	readonly title: string;
	readonly mode: PaperRow['mode'];
	readonly minutes: number;
	readonly state: PaperState;
	readonly opens: Date | null;
	readonly closes: Date | null;
	/** Sittings that have ended. */
	readonly sat: number;
}

/** @param now [ms since 1970] */
export function paperState({ set, opens, closes }: Pick<PaperRow, 'set' | 'opens' | 'closes'>, now: number): PaperState {
	if (set === null) return 'draft';
	if (opens !== null && now < opens.getTime()) return 'waiting';
	return closes !== null && now >= closes.getTime() ? 'closed' : 'open';
}

/** The latest first. @param now [ms since 1970] */
export function papersOfCohort(db: Database, cohortId: string, now: number): PaperLine[] {
	const ended = and(eq(sitting.paper, paper.id), isNotNull(sitting.ended));
	const rows = db
		.select({ paper, sat: count(sitting.id) })
		.from(paper)
		.leftJoin(sitting, ended)
		.where(eq(paper.cohort, cohortId))
		.groupBy(paper.id)
		.orderBy(desc(paper.created))
		.all();
	return rows.map(({ paper: row, sat }) => {
		const { id, title, mode, minutes, opens, closes } = row;
		return { id, title, mode, minutes, opens, closes, state: paperState(row, now), sat };
	});
}
