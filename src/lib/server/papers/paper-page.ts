/** What the page of a paper shows its assessor. */
import { and, asc, desc, eq, isNull } from 'drizzle-orm';
import { slotsOf } from '#shared/assessment/blueprint.ts';
import type { PassRule } from '#shared/assessment/pass-rule.ts';
import { spreadOf, type Spread } from '#shared/assessment/spread.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { suggestedMinutes, type PaperFields } from '../../papers/fields.ts';
import { auditOf, reasonsOf } from '../audit/audit.ts';
import { unchangeable } from '../cohorts/changing.ts';
import { paperOf, type AtPaper } from '../cohorts/kept.ts';
import type { Database } from '../database/open.ts';
import { cohort, cohortAssessor, member, sitting, type CohortRow, type PaperRow, type SittingRow } from '../database/schema.ts';
import { minutesFor, windowOf, type WindowState } from '../sittings/allowed.ts';
import { calloutsIn, type Drawer, type Drawing } from './drawing.ts';
import { blueprintOf, passRuleOf, variantsOf } from './kept-paper.ts';
import { fieldsOfPaper } from './paper-form.ts';
import type { paperSettersIn } from './set-paper.ts';
import { sharingOf, type Sharing } from './sharing.ts';
import { slotWords } from './slot-words.ts';
import type { PaperStock } from './stock.ts';

/** A member, and how they stand to a paper that is set. */
export interface Sitter {
	readonly member: string;
	readonly name: string;
	/** Own minutes, with extra time. */
	readonly minutes: number;
	/** The earliest first. */
	readonly sittings: readonly Pick<SittingRow, 'id' | 'variant' | 'number' | 'started' | 'ended' | 'marked' | 'locked'>[];
}

export interface PaperPage {
	readonly cohort: Pick<CohortRow, 'id' | 'name' | 'invented'>;
	readonly paper: Pick<
		PaperRow,
		'id' | 'title' | 'mode' | 'minutes' | 'attempts' | 'variantCount' | 'opens' | 'closes' | 'created' | 'set'
	>;
	readonly passRule: PassRule;
	/** Why nothing can be changed, in a sentence; null where it can. */
	readonly fixed: string | null;
	/** What it asks for, a line each. */
	readonly lines: readonly { readonly says: string; readonly count: number }[];
	/** What its blueprint is thought to take [min]. */
	readonly suggested: number;
	readonly drawing: Drawing;
	/** Numbers of the variants that are drawn. */
	readonly variants: readonly number[];
	/** How far they lie apart; null where none is drawn, or there is no callout in them. */
	readonly spread: Spread | null;
	readonly sharing: Sharing | null;
	readonly currency: string;
	/** Why it cannot be set yet; null where it can, or is. */
	readonly notYet: string | null;
	/** Its form, while it is a draft. */
	readonly fields: PaperFields;
	readonly window: WindowState;
	/** When the end of its window was moved, and why. */
	readonly moved: readonly { readonly at: Date; readonly reason: string | null }[];
	readonly sitters: readonly Sitter[];
	/** Cohorts that it can be copied for. */
	readonly copyTo: readonly { readonly id: string; readonly name: string }[];
}

export interface PageSources {
	readonly known: ReadonlyMap<string, Pack>;
	readonly stock: () => PaperStock;
	readonly drawer: Drawer;
	readonly setters: ReturnType<typeof paperSettersIn>;
}

export function paperPagesIn(db: Database, { known, stock, drawer, setters }: PageSources) {
	function sittersOf(row: PaperRow): Sitter[] {
		const members = db.select().from(member).where(eq(member.cohort, row.cohort)).orderBy(asc(member.name)).all();
		const sat = db.select().from(sitting).where(eq(sitting.paper, row.id)).orderBy(asc(sitting.started)).all();
		return members.flatMap((one): Sitter[] => {
			const sittings = sat.filter((sitting) => sitting.member === one.id);
			if (one.left !== null && sittings.length === 0) return [];
			return [{ member: one.id, name: one.name, minutes: minutesFor(row, one), sittings }];
		});
	}

	function movedOf(paperId: string): PaperPage['moved'] {
		const rows = auditOf(db, paperId).filter(({ kind }) => kind === 'window-changed');
		const reasons = reasonsOf(db, rows);
		return rows.map(({ seq, at }) => ({ at, reason: reasons.get(seq) ?? null }));
	}

	/** The assessor's own that can be changed, the latest first. */
	function ownCohorts(assessor: string) {
		return db
			.select({ id: cohort.id, name: cohort.name })
			.from(cohort)
			.innerJoin(cohortAssessor, and(eq(cohortAssessor.cohort, cohort.id), eq(cohortAssessor.assessor, assessor)))
			.where(and(isNull(cohort.archived), eq(cohort.invented, false)))
			.orderBy(desc(cohort.created))
			.all();
	}

	/** @returns null where there is none such of the assessor's own */
	return (at: AtPaper, zone: string, now: number): PaperPage | null => {
		const found = paperOf(db, at.assessor, at.cohort, at.paper);
		if (!found) return null;
		const { cohort: kept, paper: row } = found;
		const fixed = unchangeable(kept);
		const variants = variantsOf(db, row.id);
		const { lines } = blueprintOf(row);
		const fields = fieldsOfPaper(row, zone);
		const hasCallouts = slotsOf({ lines }).some(({ kind }) => kind === 'callout');
		const family = lines.find((line) => line.kind === 'callout')?.family;
		return {
			cohort: { id: kept.id, name: kept.name, invented: kept.invented },
			paper: row,
			passRule: passRuleOf(row),
			fixed,
			lines: lines.map(({ count, ...line }) => ({ says: slotWords(line, stock()), count })),
			suggested: suggestedMinutes(stock().minutesOf, fields),
			drawing: fixed === null ? drawer.standing(row) : { state: 'drawn' },
			variants: variants.map(({ number }) => number),
			spread: variants.length > 0 && hasCallouts ? spreadOf(variants.map(calloutsIn)) : null,
			sharing: sharingOf(variants, { lines }, known, stock()),
			currency: (known.get(family ?? '') ?? [...known.values()][0]!).rules.currency,
			notYet: row.set === null && fixed === null ? setters.notYet(row, now) : null,
			fields,
			window: windowOf(row, now),
			moved: movedOf(row.id),
			sitters: row.set === null ? [] : sittersOf(row),
			copyTo: ownCohorts(at.assessor)
		};
	};
}
