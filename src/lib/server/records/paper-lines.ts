/** The papers that a member has sat, in a line each. */
import { and, asc, eq, isNotNull } from 'drizzle-orm';
import type { Database } from '../database/open.ts';
import { paper, sitting, type PaperRow } from '../database/schema.ts';
import { sheetOf } from '../sheets/sheet.ts';
import { isReleased, releasedAt } from '../sittings/release.ts';
import { packHashesOf } from './sat-paper.ts';

export interface SatLine {
	readonly sitting: string;
	readonly title: string;
	readonly cohort: string;
	readonly mode: PaperRow['mode'];
	/** Which attempt at the paper, from 1, and which variant was drawn; null until it may be told. */
	readonly number: number;
	readonly variant: number | null;
	readonly started: Date;
	readonly ended: Date;
	readonly minutes: number;
	/** `held`: not to be told before `from`. `marking`: its marks are still being worked out. */
	readonly result:
		| { readonly is: 'held'; readonly from: Date | null }
		| { readonly is: 'marking' }
		| {
				readonly is: 'told';
				readonly got: number;
				readonly outOf: number;
				readonly percent: number;
				readonly passed: boolean;
				readonly locked: boolean;
		  };
	/** Of the packs that its items were made from. */
	readonly packHashes: readonly string[];
}

/** Sittings that have ended, the earliest first. @param now [ms since 1970] */
export function paperLines(db: Database, memberId: string, cohort: string, now: number): SatLine[] {
	const rows = db
		.select({ paper, sitting })
		.from(sitting)
		.innerJoin(paper, eq(paper.id, sitting.paper))
		.where(and(eq(sitting.member, memberId), isNotNull(sitting.ended)))
		.orderBy(asc(sitting.ended))
		.all();
	return rows.map(({ paper, sitting }) => {
		const { id, variant, number, started } = sitting;
		const ended = sitting.ended!;
		const isTold = isReleased(paper, sitting, now);
		return {
			...{ sitting: id, title: paper.title, cohort, mode: paper.mode, number, variant: isTold ? variant : null, started, ended },
			minutes: (ended.getTime() - started.getTime()) / 60_000,
			result: resultOf(db, paper, sitting, now),
			// Which packs a sitting drew on is part of what it may not tell yet.
			packHashes: isTold ? packHashesOf(db, paper.id, variant) : []
		};
	});
}

function resultOf(db: Database, of: PaperRow, sat: typeof sitting.$inferSelect, now: number): SatLine['result'] {
	const released = releasedAt(of, sat);
	if (!isReleased(of, sat, now)) return { is: 'held', from: released === null ? null : new Date(released) };
	const sheet = sheetOf(db, sat.id);
	if (!sheet) return { is: 'marking' };
	const { got, outOf, percent, passed } = sheet.outcome;
	return { is: 'told', got, outOf, percent, passed, locked: sat.locked !== null };
}
