/** A pass mark from what judges expect of a learner who only just passes, place by place of a paper. */
import { and, eq, isNotNull, sql } from 'drizzle-orm';
import { slotsOf, type Slot } from '#shared/assessment/blueprint.ts';
import { outOf } from '#shared/assessment/result.ts';
import { angoff, type Standard } from '#shared/assessment/standard.ts';
import { isLegible } from '../accounts/names.ts';
import { appendAudit, auditOf, reasonsOf } from '../audit/audit.ts';
import { unchangeable } from '../cohorts/changing.ts';
import { paperOf, type AtPaper } from '../cohorts/kept.ts';
import type { Database } from '../database/open.ts';
import { estimate, paper, sitting, type CohortRow, type PaperRow } from '../database/schema.ts';
import { conflict, refused, type Missing, type Refused } from '../outcomes.ts';
import { blueprintOf, passRuleOf, variantsOf } from './kept-paper.ts';
import { reason } from './set-paper.ts';
import { slotWords } from './slot-words.ts';
import type { PaperStock } from './stock.ts';
import { writablePaper } from './writable.ts';

/** A row of the form: a judge, and what they expect in each place, as it was written [percent]. */
export interface JudgeRow {
	readonly judge: string;
	readonly expected: readonly string[];
}

export interface StandardPage {
	readonly cohort: Pick<CohortRow, 'id' | 'name'>;
	readonly paper: Pick<PaperRow, 'id' | 'title' | 'set'>;
	readonly slots: readonly { readonly says: string; /** Marks. */ readonly outOf: number }[];
	/** Numbers of the variants that are drawn. */
	readonly variants: readonly number[];
	readonly judges: readonly JudgeRow[];
	readonly standard: Standard | null;
	/** Pass mark in force [percent]. */
	readonly mark: number;
	/** Why nothing can be changed, in a sentence; null where it can. */
	readonly fixed: string | null;
	/** When the pass mark was taken from judges, and from what to what. */
	readonly history: readonly { readonly at: Date; readonly before: number; readonly after: number; readonly reason: string | null }[];
}

export type Kept = { readonly outcome: 'kept' } | Missing | Refused;

const mostJudges = 20;
const locked = 'A mark sheet of this paper is locked, so its pass mark changes no more.';

const weightsOf = (slots: readonly Slot[]): number[] => slots.map(({ kind }) => outOf[kind]);

/** @param stock  by which places are named */
export function standardsIn(db: Database, stock: () => PaperStock) {
	/** In the order of the form. */
	function judgesOf(paperId: string): Map<string, number[]> {
		const rows = db
			.select()
			.from(estimate)
			.where(eq(estimate.paper, paperId))
			.orderBy(sql`rowid`)
			.all();
		const judges = new Map<string, number[]>();
		for (const { judge, slot, expected } of rows) {
			const own = judges.get(judge) ?? [];
			own[slot] = expected;
			judges.set(judge, own);
		}
		return judges;
	}

	const standardOf = (row: PaperRow): Standard | null => angoff([...judgesOf(row.id).values()], weightsOf(slotsOf(blueprintOf(row))));

	const hasLocked = (paperId: string): boolean =>
		db
			.select({ id: sitting.id })
			.from(sitting)
			.where(and(eq(sitting.paper, paperId), isNotNull(sitting.locked)))
			.get() !== undefined;

	/** A paper of which the standard may still be changed. */
	function open(at: AtPaper): PaperRow | Missing | Refused {
		const row = writablePaper(db, at);
		return !('outcome' in row) && hasLocked(row.id) ? conflict(locked) : row;
	}

	return {
		page(at: AtPaper): StandardPage | null {
			const found = paperOf(db, at.assessor, at.cohort, at.paper);
			if (!found) return null;
			const taken = auditOf(db, at.paper).filter(({ kind }) => kind === 'mark-taken');
			const reasons = reasonsOf(db, taken);
			const history = taken.map(({ seq, at, content }) => {
				const { before, after } = JSON.parse(content) as { before: number; after: number };
				return { at, before, after, reason: reasons.get(seq) ?? null };
			});
			const { cohort, paper } = found;
			return {
				cohort: { id: cohort.id, name: cohort.name },
				paper: { id: paper.id, title: paper.title, set: paper.set },
				slots: slotsOf(blueprintOf(paper)).map((slot) => ({ says: slotWords(slot, stock()), outOf: outOf[slot.kind] })),
				variants: variantsOf(db, paper.id).map(({ number }) => number),
				judges: [...judgesOf(at.paper)].map(([judge, own]) => ({ judge, expected: own.map(percentText) })),
				standard: standardOf(paper),
				mark: passRuleOf(paper).mark,
				fixed: unchangeable(cohort) ?? (hasLocked(at.paper) ? locked : null),
				history
			};
		},

		/** Keeps the whole table in place of the one before. Rows with nothing in them are left out. */
		keepEstimates(at: AtPaper, rows: readonly JudgeRow[], now: number): Kept {
			return db.transaction(
				(): Kept => {
					const row = open(at);
					if ('outcome' in row) return row;
					const read = readJudges(rows, slotsOf(blueprintOf(row)).length);
					if ('says' in read) return refused(read.says);
					db.delete(estimate).where(eq(estimate.paper, row.id)).run();
					for (const { judge, expected } of read.judges)
						for (const [slot, share] of expected.entries())
							db.insert(estimate)
								.values({ paper: row.id, judge, slot, expected: share, at: new Date(now) })
								.run();
					const { judges = 0, percent = null, standardErrorPercent = null } = standardOf(row) ?? {};
					const content = { judges, percent, standardErrorPercent };
					appendAudit(db, { at: now, by: at.assessor, cohort: at.cohort, kind: 'standard-set', subject: row.id, content });
					return { outcome: 'kept' };
				},
				{ behavior: 'immediate' }
			);
		},

		/** Makes the judges' cut the pass mark. Once the paper is set, that needs a reason. */
		takeCut(at: AtPaper, said: { readonly reason: unknown }, now: number): Kept {
			return db.transaction(
				(): Kept => {
					const row = open(at);
					if ('outcome' in row) return row;
					const standard = standardOf(row);
					if (!standard) return conflict('No judge has said anything yet.');
					const why = row.set === null ? null : reason.safeParse(said.reason);
					if (why && !why.success) return refused(why.error.issues[0]!.message);
					const before = passRuleOf(row);
					const after = Math.round(10 * standard.percent) / 10;
					db.update(paper)
						.set({ passRule: JSON.stringify({ ...before, mark: after }) })
						.where(eq(paper.id, row.id))
						.run();
					const content = { before: before.mark, after, judges: standard.judges };
					const told = { at: now, by: at.assessor, cohort: at.cohort, subject: row.id };
					appendAudit(db, { ...told, kind: 'mark-taken', content, reason: why?.data });
					return { outcome: 'kept' };
				},
				{ behavior: 'immediate' }
			);
		}
	};
}

const percentText = (share: number): string => String(Math.round(1000 * share) / 10);

function readJudges(
	rows: readonly JudgeRow[],
	slots: number
): { readonly judges: { readonly judge: string; readonly expected: number[] }[] } | { readonly says: string } {
	const written = rows
		.map(({ judge, expected }) => ({ judge: judge.trim().replace(/\s+/g, ' '), expected: expected.map((one) => one.trim()) }))
		.filter(({ judge, expected }) => judge !== '' || expected.some((one) => one !== ''));
	if (written.length > mostJudges) return { says: `At most ${mostJudges} judges.` };
	if (written.some(({ judge }) => judge.length < 1 || judge.length > 60))
		return { says: 'Each judge has a name, of 60 characters at most.' };
	if (!written.every(({ judge }) => isLegible(judge) && /[\p{L}\p{N}]/u.test(judge)))
		return { says: 'The name of each judge has a letter or figure, and nothing that cannot be read.' };
	if (new Set(written.map(({ judge }) => judge.toLowerCase())).size < written.length) return { says: 'Two judges have the same name.' };
	const isPercent = (one: string) => /^\d{1,3}(\.\d)?$/.test(one) && Number(one) <= 100;
	const unfit = written.find(({ expected }) => expected.length !== slots || !expected.every(isPercent));
	if (unfit) return { says: `${unfit.judge}: a number from 0 to 100 is needed in each item.` };
	return { judges: written.map(({ judge, expected }) => ({ judge, expected: expected.map((one) => Number(one) / 100) })) };
}
