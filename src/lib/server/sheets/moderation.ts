/** What assessors do with marks: change one with a reason, look as a second marker, lock, unlock. Each goes into the audit trail as it is done. */
import { and, eq, isNull } from 'drizzle-orm';
import { z } from 'zod';
import { isLegibleText } from '../accounts/names.ts';
import { appendAudit, type AuditKind } from '../audit/audit.ts';
import { unchangeable } from '../cohorts/changing.ts';
import { paperOf, type AtPaper } from '../cohorts/kept.ts';
import type { Database } from '../database/open.ts';
import { markChange, secondMarking, sitting, type CohortRow } from '../database/schema.ts';
import { conflict, done, missing, refused, type Done, type Missing, type Refused } from '../outcomes.ts';
import { queueStatement } from '../records/outbox.ts';
import { releasedAt } from '../sittings/release.ts';
import { contentOf } from './history.ts';
import { markAt } from './moderated.ts';
import { sheetOf, sheetsOf, type Sheet } from './sheet.ts';

/** Where a sheet lies, as its address has it. */
export interface SheetAt extends Omit<AtPaper, 'assessor'> {
	readonly sitting: string;
}

export type Moderated = Done | Refused | Missing;

/** Why marks cannot be changed, in a sentence; null where they can. What was sat before a cohort was archived is marked and appealed against after it. */
const fixed = (cohort: CohortRow): string | null => unchangeable(cohort, true);

/** Why an assessor does nothing to a sheet, in a sentence, where it is of what they sat themselves; null where it is another's. */
export const ofOwn = ({ member }: Pick<Sheet, 'member'>, assessorId: string): string | null =>
	member.learner === assessorId ? 'This is your own sheet. A colleague who keeps the cohort does that.' : null;

/** Words that a reason has at least: fewer explain nothing to whoever reads it in a year. */
export const fewestWords = 3;
const mostLetters = 1000;
const wordsIn = (text: string) => text.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;
export const reasonOf = (what: string) =>
	z
		.string(`${what} has at least ${fewestWords} words.`)
		.trim()
		.refine((text) => wordsIn(text) >= fewestWords, `${what} has at least ${fewestWords} words.`)
		.refine((text) => text.length <= mostLetters, `${what} has at most ${mostLetters} letters.`)
		.refine(isLegibleText, `${what} holds what cannot be read. Write it anew.`);

/** As it is written in a form, to a tenth: `12`, `12.5`, `12,5`. */
const markWritten = z
	.string('Write the mark that it is to be.')
	.trim()
	.regex(/^\d{1,3}([.,]\d)?$/, 'A mark is a number with at most one decimal: 12 or 12.5.')
	.transform((text) => Number(text.replace(',', '.')));

const changed = z.object({
	slot: z.coerce.number().int().min(0),
	/** Empty for a drill. */
	criterion: z.string().transform((one) => (one === '' ? null : one)),
	/** Id of the latest change that the form knew of; 0 for none. */
	seen: z.coerce.number().int().min(0),
	mark: markWritten,
	reason: reasonOf('A reason')
});
const second = z.object({
	agrees: z.enum(['yes', 'no'], 'Say whether you agree or not.'),
	note: reasonOf('A note')
});

/** The sheet, where it lies in one of the assessor's cohorts. */
export function sheetAt(db: Database, assessorId: string, at: SheetAt): { readonly sheet: Sheet; readonly cohort: CohortRow } | null {
	const own = paperOf(db, assessorId, at.cohort, at.paper);
	const sheet = own && sheetOf(db, at.sitting);
	return sheet && sheet.paper.id === at.paper ? { sheet, cohort: own.cohort } : null;
}

/** Whatever is done to a sheet is looked up, refused or stored, and told to the trail in one transaction. */
function moderate(db: Database, assessorId: string, at: SheetAt, act: (sheet: Sheet) => Moderated): Moderated {
	return db.transaction(
		() => {
			const found = sheetAt(db, assessorId, at);
			if (!found) return missing;
			const says = fixed(found.cohort) ?? ofOwn(found.sheet, assessorId);
			return says === null ? act(found.sheet) : conflict(says);
		},
		{ behavior: 'immediate' }
	);
}

const locked = conflict('This sheet is locked. Unlock it first, and say why.');
const firstProblem = ({ issues }: z.ZodError) => refused(issues[0]!.message);

/** @param wanted  fields of the form, unchecked */
export function changeMark(db: Database, assessorId: string, at: SheetAt, wanted: unknown, now = Date.now()): Moderated {
	return moderate(db, assessorId, at, (sheet) => {
		if (sheet.state === 'locked') return locked;
		const read = changed.safeParse(wanted);
		if (!read.success) return firstProblem(read.error);
		const { slot, criterion, seen, mark, reason } = read.data;
		const before = markAt(sheet.results, sheet.marks, slot, criterion);
		if (!before) return refused('There is no such mark on this sheet.');
		const isBehind = sheet.changes.some((one) => one.id > seen && one.slot === slot && one.criterion === criterion);
		if (isBehind) return conflict(`This mark was changed meanwhile: it is ${before.got} now. Nothing was changed by you.`);
		if (mark > before.outOf) return refused(`This is out of ${before.outOf}: a mark beyond that cannot be given.`);
		if (mark === before.got) return refused(`The mark is ${mark} already.`);
		const change = { slot, criterion, before: before.got, after: mark };
		const time = new Date(now);
		db.insert(markChange)
			.values({ sitting: at.sitting, ...change, reason, by: assessorId, at: time })
			.run();
		tell(db, sheet, assessorId, 'mark-changed', contentOf.changed({ ...change, reason }), now);
		return done;
	});
}

/** Whether this account may look at a sheet as its second marker: nobody is the second to themselves. */
export const mayBeSecond = ({ changes }: Pick<Sheet, 'changes'>, assessorId: string): boolean =>
	changes.every(({ by }) => by !== assessorId);

/** @param wanted  fields of the form, unchecked */
export function markSecond(db: Database, assessorId: string, at: SheetAt, wanted: unknown, now = Date.now()): Moderated {
	return moderate(db, assessorId, at, (sheet) => {
		if (sheet.state === 'locked') return locked;
		if (!mayBeSecond(sheet, assessorId)) return conflict('You changed a mark on this sheet: the second marker is somebody else.');
		const read = second.safeParse(wanted);
		if (!read.success) return firstProblem(read.error);
		const { note } = read.data;
		const agrees = read.data.agrees === 'yes';
		const said = { agrees, note, lastChange: sheet.changes.at(-1)?.id ?? null };
		db.insert(secondMarking)
			.values({ sitting: at.sitting, by: assessorId, at: new Date(now), ...said })
			.run();
		tell(db, sheet, assessorId, 'second-marked', contentOf.second(said), now);
		return done;
	});
}

/** What stands in the way of locking a sheet now, in a sentence; null where nothing does. */
export function notYet({ paper, sitting: sat }: Pick<Sheet, 'paper' | 'sitting'>, now: number): string | null {
	const released = releasedAt(paper, sat);
	if (released !== null && now >= released) return null;
	return 'The window of this formal paper is still open. Marks are locked, and go on record, once it has closed.';
}

/** What is to be known before a sheet is locked; null where nothing is. */
export const warningOf = ({ wantsSecond, second, changes }: Pick<Sheet, 'wantsSecond' | 'second' | 'changes'>): string | null => {
	if (!wantsSecond) return null;
	if (second === null) return 'A mark was changed, and no second marker has agreed to it.';
	return changes.length > 0
		? 'A mark was changed, and the second marker does not agree.'
		: 'The second marker does not agree with the marks.';
};

/** @param why  it is locked in spite of the warning, of the form, unchecked; of no meaning where there is no warning */
export function lockSheet(db: Database, assessorId: string, at: SheetAt, why: unknown, now = Date.now()): Moderated {
	return moderate(db, assessorId, at, (sheet) => {
		if (sheet.state === 'locked') return conflict('This sheet is locked already.');
		const barred = notYet(sheet, now);
		if (barred !== null) return conflict(barred);
		const warning = warningOf(sheet);
		const read = warning === null ? null : reasonOf('A reason').safeParse(why);
		if (read && !read.success)
			return refused(`${warning} To lock it all the same, say why: ${read.error.issues[0]!.message} Or ask a second marker.`);
		lock(db, assessorId, sheet, now, read?.data);
		return done;
	});
}

/** @param reason  where it is locked in spite of something */
function lock(db: Database, by: string, sheet: Sheet, now: number, reason?: string): void {
	const { id } = sheet.sitting;
	db.update(sitting)
		.set({ locked: new Date(now), lockedBy: by })
		.where(and(eq(sitting.id, id), isNull(sitting.locked)))
		.run();
	const { got, outOf, percent, passed } = sheet.outcome;
	tell(db, sheet, by, 'sheet-locked', { got, outOf, percent, passed, withoutSecond: sheet.wantsSecond }, now, reason);
	queueStatement(db, id, now);
}

export type LockedAll = (Done & { readonly locked: number; readonly left: number }) | Refused | Missing;

/** Locks every sheet of a paper that nothing stands in the way of, nothing is to be known of, and is not the assessor's own. */
export function lockAll(db: Database, assessorId: string, at: Omit<SheetAt, 'sitting'>, now = Date.now()): LockedAll {
	return db.transaction(
		(): LockedAll => {
			const own = paperOf(db, assessorId, at.cohort, at.paper);
			if (!own) return missing;
			const says = fixed(own.cohort);
			if (says !== null) return conflict(says);
			const open = sheetsOf(db, at.paper).filter(({ state }) => state !== 'locked');
			const ready = open.filter((sheet) => notYet(sheet, now) === null && warningOf(sheet) === null && ofOwn(sheet, assessorId) === null);
			for (const sheet of ready) lock(db, assessorId, sheet, now);
			return { ...done, locked: ready.length, left: open.length - ready.length };
		},
		{ behavior: 'immediate' }
	);
}

/** @param why  of the form, unchecked */
export function unlockSheet(db: Database, assessorId: string, at: SheetAt, why: unknown, now = Date.now()): Moderated {
	return moderate(db, assessorId, at, (sheet) => {
		if (sheet.state !== 'locked') return conflict('This sheet is not locked.');
		const read = reasonOf('A reason').safeParse(why);
		if (!read.success) return firstProblem(read.error);
		db.update(sitting).set({ locked: null, lockedBy: null }).where(eq(sitting.id, at.sitting)).run();
		tell(db, sheet, assessorId, 'sheet-unlocked', {}, now, read.data);
		return done;
	});
}

function tell(
	db: Database,
	{ paper, sitting: sat }: Sheet,
	by: string,
	kind: AuditKind,
	content: object,
	at: number,
	reason?: string
): void {
	appendAudit(db, { at, by, cohort: paper.cohort, kind, subject: sat.id, content, reason });
}
