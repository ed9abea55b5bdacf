/** What the marks of a set paper say of its items: rows of the database, and the core's statistics over them. */
import { asc, eq } from 'drizzle-orm';
import { slotsOf } from '#shared/assessment/blueprint.ts';
import { equated, equating, equatingError, type Equating } from '#shared/assessment/equating.ts';
import { fairness, type SatVariant, type VariantFairness } from '#shared/assessment/fairness.ts';
import type { Figure } from '#shared/assessment/figure.ts';
import { spreadOf, type Spread } from '#shared/assessment/spread.ts';
import { itemStatistics, type PaperFigures } from '#shared/assessment/statistics.ts';
import { timesOf, type ItemTimes } from '#shared/assessment/times.ts';
import { outOf } from '#shared/assessment/result.ts';
import { groupBy } from '#shared/quantity/group-by.ts';
import { shareOf, type Share } from '#shared/quantity/wilson.ts';
import type { Database } from '../database/open.ts';
import { action, attempt, drill, sitting, sittingItem, type PaperRow } from '../database/schema.ts';
import { curriculum } from '../packs/curriculum.ts';
import { packs } from '../packs/packs.ts';
import { calloutsIn } from '../papers/drawing.ts';
import { blueprintOf, passRuleOf, variantsOf } from '../papers/kept-paper.ts';
import { slotWords } from '../papers/slot-words.ts';
import { ownMinutes } from '../practice/own-minutes.ts';
import { sheetsOf, type Sheet } from '../sheets/sheet.ts';

export interface EquatedVariant {
	readonly number: number;
	/** To what its totals would be turned. */
	readonly onto: number;
	readonly line: Figure<Equating>;
	/** Where the line is known, what two totals come to by it. */
	readonly at: readonly EquatedTotal[];
}

export interface EquatedTotal {
	readonly of: 'mean' | 'pass mark';
	/** On the variant, what it is worth on the other, and the standard error of that [marks]. */
	readonly total: number;
	readonly worth: number;
	readonly standardError: number;
}

export interface ItemFiguresOfPaper {
	/** By slot, in words. */
	readonly items: readonly string[];
	readonly figures: PaperFigures;
	/** Share of the marks to be reached [percent], and who passed. */
	readonly passMark: number;
	readonly passed: Share;
	readonly times: readonly ItemTimes[];
	/** Empty where only one variant was drawn. */
	readonly variants: readonly VariantFairness[];
	/** As predicted; null where there is no callout in the paper. */
	readonly spread: Spread | null;
	readonly equated: readonly EquatedVariant[];
	/** Sittings that are not counted: those of learners who had sat it before, and those not marked yet. */
	readonly again: number;
	readonly unmarked: number;
	/** Whether every sheet that counts is locked. */
	readonly isLocked: boolean;
	readonly currency: string;
}

const isFirst = ({ sitting }: Pick<Sheet, 'sitting'>): boolean => sitting.number === 1;

/** The core's statistics of a paper's sheets, as its page of statistics and its list of sheets have them. @param sheets  of all sittings */
export function figuresOf(paper: PaperRow, sheets: readonly Sheet[]): PaperFigures {
	return itemStatistics(
		sheets.filter(isFirst).map((sheet) => sheet.marks.map(({ got }) => got)),
		slotsOf(blueprintOf(paper)).map(({ kind }) => outOf[kind])
	);
}

/** Of a learner's first sitting each: what was learnt in one would count as an easier paper in the next. */
export function itemFiguresIn(db: Database, paper: PaperRow): ItemFiguresOfPaper {
	const all = sheetsOf(db, paper.id);
	const sheets = all.filter(isFirst);
	const slots = slotsOf(blueprintOf(paper));
	const variants = variantsOf(db, paper.id);
	const spread = slots.some(({ kind }) => kind === 'callout') && variants.length > 0 ? spreadOf(variants.map(calloutsIn)) : null;
	const sat = variants.map(({ number }, index): SatVariant => {
		const totals = sheets.flatMap(({ sitting, outcome }) => (sitting.variant === number ? outcome.got : []));
		return { number, totals, predicted: spread?.totals[index] ?? null };
	});
	const passMark = passRuleOf(paper).mark;
	const passTotal = (passMark / 100) * slots.reduce((sum, { kind }) => sum + outOf[kind], 0);
	const ended = db.select().from(sitting).where(eq(sitting.paper, paper.id)).all();
	return {
		items: slots.map((slot) => slotWords(slot, names())),
		figures: figuresOf(paper, all),
		passMark,
		passed: shareOf(sheets.filter(({ outcome }) => outcome.passed).length, sheets.length),
		times: timesOf(minutesBySitter(db, paper.id, sheets, slots.length), slots.length),
		variants: variants.length > 1 ? fairness(sat) : [],
		spread,
		equated: variants.length > 1 ? equatedOnto(sat, passTotal) : [],
		again: all.length - sheets.length,
		unmarked: ended.filter(({ marked }) => marked === null).length,
		isLocked: sheets.every(({ sitting }) => sitting.locked !== null),
		currency: [...packs().values()][0]!.rules.currency
	};
}

const names = () => ({
	families: [...packs().values()].map(({ family: { id, short } }) => ({ id, short, areas: [] })),
	drills: curriculum().drills
});

/** Each variant onto the one that most have sat. @param passTotal [marks] */
function equatedOnto(sat: readonly SatVariant[], passTotal: number): EquatedVariant[] {
	const onto = sat.reduce((most, one) => (one.totals.length > most.totals.length ? one : most));
	const others = sat.filter((one) => one !== onto);
	return others.map(({ number, totals }) => {
		const line = equating(totals, onto.totals);
		return { number, onto: onto.number, line, at: line.value ? equatedAt(line.value, passTotal) : [] };
	});
}

function equatedAt(line: Equating, passTotal: number): EquatedTotal[] {
	const at = (of: EquatedTotal['of'], total: number) => ({
		of,
		total,
		worth: equated(line, total),
		standardError: equatingError(line, total)
	});
	return [at('mean', line.x.mean), at('pass mark', passTotal)];
}

/** By the sitters' own clocks, by slot; null for what was not begun. Time away from an item, in another or idle, is left out. */
function minutesBySitter(db: Database, paperId: string, sheets: readonly Sheet[], slots: number): (number | null)[][] {
	const items = db
		.select({ item: sittingItem, began: attempt.created, asked: drill.created, answered: drill.answered })
		.from(sittingItem)
		.innerJoin(sitting, eq(sitting.id, sittingItem.sitting))
		.leftJoin(attempt, eq(attempt.id, sittingItem.attempt))
		.leftJoin(drill, eq(drill.id, sittingItem.drill))
		.where(eq(sitting.paper, paperId))
		.all();
	const moments = groupBy(
		db
			.select({ attempt: action.attempt, at: action.at })
			.from(action)
			.innerJoin(sittingItem, eq(sittingItem.attempt, action.attempt))
			.innerJoin(sitting, eq(sitting.id, sittingItem.sitting))
			.where(eq(sitting.paper, paperId))
			.orderBy(asc(action.attempt), asc(action.seq))
			.all(),
		(row) => row.attempt
	);
	const minutes = new Map(
		items.map(({ item, began, asked, answered }) => {
			const done = began ? (moments.get(item.attempt!) ?? []).map(({ at }) => at) : [answered];
			const times = [began ?? asked, ...done].flatMap((at) => at?.getTime() ?? []);
			return [`${item.sitting}/${item.slot}`, times.length > 1 ? ownMinutes(times) : null] as const;
		})
	);
	return sheets.map(({ sitting }) => Array.from({ length: slots }, (_, slot) => minutes.get(`${sitting.id}/${slot}`) ?? null));
}
