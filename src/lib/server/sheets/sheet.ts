/** The mark sheet of a sitting: what was worked out, what moderation made of it, and how far it has come. */
import { and, asc, eq, inArray, isNotNull } from 'drizzle-orm';
import type { ItemMarks, ItemResult } from '#shared/assessment/result.ts';
import { outcomeOf, type Outcome } from '#shared/assessment/pass-rule.ts';
import { groupBy } from '#shared/quantity/group-by.ts';
import type { Database } from '../database/open.ts';
import {
	itemMark,
	markChange,
	member,
	paper,
	secondMarking,
	sitting,
	type MarkChangeRow,
	type MemberRow,
	type PaperRow,
	type SecondMarkingRow,
	type SittingRow
} from '../database/schema.ts';
import { passRuleOf } from '../papers/kept-paper.ts';
import { marksAfter } from './moderated.ts';

/**
 * `marked`: as worked out. `changed`: a mark was changed, and no second marker has looked at it since. `agreed`, `disputed`: what the second
 * marker who looked last says of the marks as they are now. `locked`: they change no more.
 */
export type SheetState = 'marked' | 'changed' | 'agreed' | 'disputed' | 'locked';

/** What a second marker holds of the marks as they are now. */
export type SecondView = 'agrees' | 'disagrees';

/** What a sheet was locked over. */
export type LockedOver = 'second-marker' | 'not-seconded';

export interface Sheet {
	readonly sitting: SittingRow;
	readonly member: MemberRow;
	readonly paper: PaperRow;
	/** Of every slot, as worked out when the sitting closed. */
	readonly results: readonly ItemResult[];
	/** Of every slot, as they stand after moderation. */
	readonly marks: readonly ItemMarks[];
	readonly outcome: Outcome;
	readonly state: SheetState;
	/** In the order they were made. */
	readonly changes: readonly MarkChangeRow[];
	readonly seconds: readonly SecondMarkingRow[];
	/** Null where none has looked at them as they are now. */
	readonly second: SecondView | null;
	/** Whether a mark was changed to which nobody else has agreed since, or a second marker does not agree to the marks. */
	readonly wantsSecond: boolean;
	/** Null where it is not locked, and where nothing stood against that. */
	readonly lockedOver: LockedOver | null;
}

/** @returns null where there is no such sitting, or it is not marked yet */
export function sheetOf(db: Database, sittingId: string): Sheet | null {
	return sheetsIn(db, [sittingId])[0] ?? null;
}

/** The marked sittings of a paper, by name and then by attempt. */
export function sheetsOf(db: Database, paperId: string): Sheet[] {
	const ids = db
		.select({ id: sitting.id })
		.from(sitting)
		.where(and(eq(sitting.paper, paperId), isNotNull(sitting.marked)))
		.all();
	const byName = new Intl.Collator('en-GB', { numeric: true });
	return sheetsIn(
		db,
		ids.map(({ id }) => id)
	).sort((a, b) => byName.compare(a.member.name, b.member.name) || a.sitting.number - b.sitting.number);
}

function sheetsIn(db: Database, ids: readonly string[]): Sheet[] {
	const heads = db
		.select({ sitting, member, paper })
		.from(sitting)
		.innerJoin(member, eq(member.id, sitting.member))
		.innerJoin(paper, eq(paper.id, sitting.paper))
		.where(and(inArray(sitting.id, [...ids]), isNotNull(sitting.marked)))
		.all();
	const among = [...ids];
	const items = bySitting(db.select().from(itemMark).where(inArray(itemMark.sitting, among)).orderBy(asc(itemMark.slot)).all());
	const changes = bySitting(db.select().from(markChange).where(inArray(markChange.sitting, among)).orderBy(asc(markChange.id)).all());
	const seconds = bySitting(
		db.select().from(secondMarking).where(inArray(secondMarking.sitting, among)).orderBy(asc(secondMarking.id)).all()
	);
	return heads.map((head) => {
		const { id } = head.sitting;
		const results = (items.get(id) ?? []).map(({ content }) => JSON.parse(content) as ItemResult);
		return drawnUp({ ...head, results, changes: changes.get(id) ?? [], seconds: seconds.get(id) ?? [] });
	});
}

const bySitting = <Row extends { readonly sitting: string }>(rows: readonly Row[]) => groupBy(rows, (row) => row.sitting);

function drawnUp(rows: Pick<Sheet, 'sitting' | 'member' | 'paper' | 'results' | 'changes' | 'seconds'>): Sheet {
	const { sitting, paper, results, changes, seconds } = rows;
	const marks = marksAfter(results, changes);
	const said = saidLast(changes, seconds);
	const state =
		sitting.locked !== null ? 'locked' : said ? (said.agrees ? 'agreed' : 'disputed') : changes.length > 0 ? 'changed' : 'marked';
	const second = said ? (said.agrees ? 'agrees' : 'disagrees') : null;
	const wantsSecond = second === 'disagrees' || (changes.length > 0 && second === null);
	const lockedOver = state !== 'locked' || !wantsSecond ? null : second === 'disagrees' ? 'second-marker' : 'not-seconded';
	return { ...rows, marks, outcome: outcomeOf(passRuleOf(paper), results, marks), state, second, wantsSecond, lockedOver };
}

/** What a second marker said last, where no mark was changed since. */
function saidLast(changes: readonly MarkChangeRow[], seconds: readonly SecondMarkingRow[]): SecondMarkingRow | undefined {
	const [said, change] = [seconds.at(-1), changes.at(-1)];
	return said && said.lastChange === (change?.id ?? null) ? said : undefined;
}
