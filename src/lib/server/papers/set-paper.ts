/** A paper is set: from then on its learners see it, and nothing changes but the end of its window and, until a sheet is locked, its pass mark. */
import { and, desc, eq, isNull } from 'drizzle-orm';
import { z } from 'zod';
import { isLegible } from '../accounts/names.ts';
import { appendAudit } from '../audit/audit.ts';
import type { Database } from '../database/open.ts';
import { paper, sitting, type PaperRow } from '../database/schema.ts';
import type { AtPaper } from '../cohorts/kept.ts';
import { instantOf } from '../local-time.ts';
import { conflict, refused, type Missing, type Refused } from '../outcomes.ts';
import type { PackOf } from '../packs/earlier-packs.ts';
import { moveDeadlines } from '../sittings/later-deadlines.ts';
import { timeWords } from '../sittings/times.ts';
import type { Drawer } from './drawing.ts';
import { termsOf, variantsOf } from './kept-paper.ts';
import { mostWindowMs, tooLong } from './paper-form.ts';
import { writableDraft, writablePaper } from './writable.ts';

/** A reason as it is kept: some words. */
export const reason = z
	.string('Say why.')
	.transform((said) => said.trim().replace(/\s+/g, ' '))
	.refine((said) => said.length >= 3 && said.length <= 300, 'Say why, in 3 to 300 characters.')
	.refine(isLegible, 'This holds what cannot be read. Write it anew.');

export type SetPaper = { readonly outcome: 'set' } | Missing | Refused;
export type Extended = { readonly outcome: 'extended' } | Missing | Refused;

export function paperSettersIn(db: Database, { drawer, packOf }: { readonly drawer: Drawer; readonly packOf: PackOf }) {
	/** Why a draft cannot be set, in a sentence; null where it can. */
	function notYet(row: PaperRow, now: number): string | null {
		if (drawer.standing(row).state !== 'drawn') return 'Its variants are not drawn yet.';
		if (row.closes === null || row.closes.getTime() <= now) return 'Its window is over already. Give it another.';
		const items = variantsOf(db, row.id).flatMap((variant) => variant.items);
		const isOver = items.some(({ family, packHash }) => family !== null && packHash !== null && packOf(family, packHash) === null);
		return isOver ? 'Its variants were drawn from an earlier version of the appliances. Have them drawn afresh.' : null;
	}

	return {
		notYet,

		set(at: AtPaper, now: number): SetPaper {
			return db.transaction(
				(): SetPaper => {
					const row = writableDraft(db, at);
					if ('outcome' in row) return row;
					const says = notYet(row, now);
					if (says !== null) return conflict(says);
					db.update(paper)
						.set({ set: new Date(now) })
						.where(eq(paper.id, at.paper))
						.run();
					const content = termsOf(db, row);
					appendAudit(db, { at: now, by: at.assessor, cohort: at.cohort, kind: 'paper-set', subject: at.paper, content });
					return { outcome: 'set' };
				},
				{ behavior: 'immediate' }
			);
		},

		/**
		 * Moves the end of the window later, or earlier, though never so that a sitting that runs is cut short by it. Whoever sits at the time and was to be cut short by it gets of their own minutes what the new end
		 * leaves them.
		 * @param said  the new end and the reason, as they were written
		 */
		extend(at: AtPaper, said: { readonly closes: string; readonly reason: unknown }, zone: string, now: number): Extended {
			return db.transaction(
				(): Extended => {
					const row = writablePaper(db, at);
					if ('outcome' in row) return row;
					const closes = instantOf(said.closes, zone);
					const why = reason.safeParse(said.reason);
					if (row.set === null || row.closes === null)
						return conflict('This paper is not set yet; its window is changed with the rest of it.');
					if (closes === null) return refused('A date and a time, such as 2026-03-12 09:30.');
					if (row.mode === 'formal' && row.closes.getTime() <= now)
						return conflict('The window is over, and what was in the paper has been told. Copy the paper for whoever has not sat it.');
					const unfit = unfitEnd(db, row, closes, zone, now);
					if (unfit !== null) return refused(unfit);
					if (!why.success) return refused(why.error.issues[0]!.message);
					db.update(paper)
						.set({ closes: new Date(closes) })
						.where(eq(paper.id, at.paper))
						.run();
					const content = { from: row.closes, to: new Date(closes) };
					const told = { at: now, by: at.assessor, cohort: at.cohort, subject: at.paper };
					appendAudit(db, { ...told, kind: 'window-changed', content, reason: why.data });
					moveDeadlines(db, { paper: at.paper }, at.assessor, now);
					return { outcome: 'extended' };
				},
				{ behavior: 'immediate' }
			);
		}
	};
}

/** Why the window of a paper that is set cannot end then, in a sentence; null where it can. @param closes [ms since 1970] */
function unfitEnd(db: Database, { id, opens, closes: before }: PaperRow, closes: number, zone: string, now: number): string | null {
	if (closes === before?.getTime()) return 'That is when it closes already.';
	if (closes <= now) return 'The window would be over already.';
	if (opens !== null && closes <= opens.getTime()) return 'It closes after it opens.';
	if (opens !== null && closes - opens.getTime() > mostWindowMs) return tooLong;
	const running = and(eq(sitting.paper, id), isNull(sitting.ended));
	const last = db.select().from(sitting).where(running).orderBy(desc(sitting.deadline)).limit(1).get()?.deadline.getTime();
	if (last === undefined || closes >= last) return null;
	return `Somebody is sitting it and has time until ${timeWords(last, now, zone)}. It cannot close before that.`;
}
