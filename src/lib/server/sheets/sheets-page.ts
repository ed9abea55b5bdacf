/** What the page of a paper's sheets asks for: every sitting of it, marked or not. */
import { and, asc, eq, isNull } from 'drizzle-orm';
import { criteria, type Criterion } from '#shared/marking/mark-sheet.ts';
import type { Outcome, PassRule } from '#shared/assessment/pass-rule.ts';
import { paperOf } from '../cohorts/kept.ts';
import type { Database } from '../database/open.ts';
import { member, sitting } from '../database/schema.ts';
import { passRuleOf } from '../papers/kept-paper.ts';
import { figuresOf } from '../statistics/item-figures.ts';
import type { Marking, Unmarked } from './marking.ts';
import { notYet, warningOf, type SheetAt } from './moderation.ts';
import { sheetsOf, type LockedOver, type Sheet, type SheetState } from './sheet.ts';

export interface Share {
	readonly got: number;
	readonly outOf: number;
}

export interface SheetLine {
	readonly id: string;
	readonly member: string;
	readonly reference: string | null;
	readonly variant: number;
	/** Which of the member's attempts. */
	readonly number: number;
	/** Over all callouts that were begun; null for a criterion that none has. */
	readonly byCriterion: Readonly<Record<Criterion, Share>>;
	/** Of all drills. */
	readonly drills: Share;
	/** What callouts that were never begun were out of. */
	readonly untried: Share;
	readonly outcome: Outcome;
	readonly state: SheetState;
	readonly lockedOver: LockedOver | null;
	/** Whether it is locked along with all others. */
	readonly isReady: boolean;
	/** What is to be known before it is locked. */
	readonly warning: string | null;
}

/** A sitting that has no marks yet. */
export interface UnmarkedLine {
	readonly id: string;
	readonly member: string;
	readonly variant: number;
	readonly number: number;
	/** Still running, or closed and being marked. */
	readonly isRunning: boolean;
	/** Why it could not be marked when that was tried last; null where it was not tried yet. */
	readonly failed: Unmarked | null;
}

export interface SheetsPage {
	readonly cohort: string;
	readonly title: string;
	readonly rule: PassRule;
	readonly mode: 'practice' | 'formal';
	readonly closes: Date | null;
	/** Each with whether its total lies within one standard error of measurement of the pass mark, where that error can be told. */
	readonly sheets: readonly (SheetLine & { readonly isClose: boolean })[];
	readonly unmarked: readonly UnmarkedLine[];
	readonly isInvented: boolean;
}

const sumOf = (shares: readonly Share[]): Share => ({
	got: Math.round(10 * shares.reduce((sum, { got }) => sum + got, 0)) / 10,
	outOf: shares.reduce((sum, { outOf }) => sum + outOf, 0)
});

export function lineOf(sheet: Sheet, now: number): SheetLine {
	const { sitting: sat, member: who, marks, results, outcome, state } = sheet;
	const isDrill = (slot: number) => results[slot]!.kind === 'drill' || (results[slot] as { of?: string }).of === 'drill';
	const played = marks.flatMap(({ byCriterion }) => byCriterion ?? []);
	const byCriterion = Object.fromEntries(
		criteria.map((criterion) => [criterion, sumOf(played.map((shares) => shares[criterion]))])
	) as Record<Criterion, Share>;
	const warning = warningOf(sheet);
	return {
		id: sat.id,
		member: who.name,
		reference: who.reference,
		variant: sat.variant,
		number: sat.number,
		byCriterion,
		drills: sumOf(marks.filter(({ slot }) => isDrill(slot))),
		untried: sumOf(marks.filter(({ slot, byCriterion }) => byCriterion === null && !isDrill(slot))),
		outcome,
		state,
		lockedOver: sheet.lockedOver,
		isReady: state !== 'locked' && warning === null && notYet(sheet, now) === null,
		warning: state === 'locked' ? null : warning
	};
}

/** @param mark  to pass [percent] @param error  standard error of measurement [marks]; null where it cannot be told */
const isClose = ({ outcome: { got, outOf } }: Pick<Sheet, 'outcome'>, mark: number, error: number | null): boolean =>
	error !== null && Math.abs(got - (mark / 100) * outOf) <= error;

/**
 * @param why  that a sitting is not marked
 * @returns null where there is no such paper among the assessor's own
 */
export function sheetsPage(
	db: Database,
	why: Marking['unmarked'],
	assessorId: string,
	at: Omit<SheetAt, 'sitting'>,
	now: number
): SheetsPage | null {
	const own = paperOf(db, assessorId, at.cohort, at.paper);
	if (!own) return null;
	const { cohort, paper } = own;
	const sheets = sheetsOf(db, at.paper);
	const error = figuresOf(paper, sheets).reliability.value?.standardError ?? null;
	const unmarked = db
		.select({ id: sitting.id, member: member.name, variant: sitting.variant, number: sitting.number, ended: sitting.ended })
		.from(sitting)
		.innerJoin(member, eq(member.id, sitting.member))
		.where(and(eq(sitting.paper, at.paper), isNull(sitting.marked)))
		.orderBy(asc(member.name), asc(sitting.number))
		.all();
	return {
		cohort: cohort.name,
		title: paper.title,
		rule: passRuleOf(paper),
		mode: paper.mode,
		closes: paper.closes,
		sheets: sheets.map((sheet) => ({ ...lineOf(sheet, now), isClose: isClose(sheet, passRuleOf(paper).mark, error) })),
		unmarked: unmarked.map(({ ended, ...one }) => ({ ...one, isRunning: ended === null, failed: why(one.id) })),
		isInvented: cohort.invented
	};
}
