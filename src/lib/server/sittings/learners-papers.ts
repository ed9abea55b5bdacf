/** The papers that were set for a learner, as their pages show them. */
import { and, asc, eq, gt, isNull } from 'drizzle-orm';
import { slotsOf } from '#shared/assessment/blueprint.ts';
import type { Outcome, PassRule } from '#shared/assessment/pass-rule.ts';
import { database, type Database } from '../database/open.ts';
import { member, paper, sitting, type PaperRow, type SittingRow } from '../database/schema.ts';
import { blueprintOf, passRuleOf } from '../papers/kept-paper.ts';
import { ownResult } from '../sheets/own-result.ts';
import { deadlineOf, isOver, minutesFor, minutesUntil, windowOf, type WindowState } from './allowed.ts';
import { papersSetFor, sittingsOf, whyNot, type SetPaper } from './begin-sitting.ts';
import { clockTime, timeWords } from './times.ts';

/** One sitting in a list. */
export interface SatLine {
	readonly id: string;
	readonly number: number;
	readonly isRunning: boolean;
	/** Whole minutes to its deadline; 0 once that has come. */
	readonly minutesLeft: number;
	/** When it began, in words. */
	readonly began: string;
	/** Null until it may be told and is marked. */
	readonly result: Pick<Outcome, 'got' | 'outOf' | 'percent' | 'passed'> | null;
}

export interface PaperLine {
	readonly id: string;
	readonly title: string;
	readonly cohort: string;
	readonly mode: PaperRow['mode'];
	/** With the learner's own extra time. */
	readonly minutes: number;
	readonly opens: string;
	readonly closes: string;
	readonly window: WindowState;
	/** Whether a sitting runs or can be begun now. */
	readonly isOpen: boolean;
	readonly sittings: readonly SatLine[];
}

export interface PapersList {
	readonly open: readonly PaperLine[];
	readonly toCome: readonly PaperLine[];
	/** The window is open, and the attempts are used up. */
	readonly sat: readonly PaperLine[];
	/** Nothing more can be begun. */
	readonly over: readonly PaperLine[];
}

/** One paper before and between its sittings. */
export interface PaperSheet extends PaperLine {
	/** As everyone has them, and the learner's own share on top [percent]. */
	readonly baseMinutes: number;
	readonly extraPercent: number;
	readonly callouts: number;
	readonly drills: number;
	/** Sittings that may be begun in all, and those still left. */
	readonly attempts: number;
	readonly left: number;
	readonly passRule: PassRule;
	/** Where the window would cut a sitting short that is begun now: when it ends and what would be left. */
	readonly cut: { readonly at: string; readonly minutes: number } | null;
	/** Why none can be begun; null where one can. */
	readonly refused: string | null;
	readonly running: string | null;
	readonly zone: string;
}

export interface Reader {
	readonly id: string;
	/** IANA name. */
	readonly zone: string;
}

/**
 * What is open: what is being sat first, the sooner it ends the sooner, then by when the window closes. What is over: the latest window first.
 * @param now [ms since 1970]
 */
export function papersOf(reader: Reader, now = Date.now(), db: Database = database()): PapersList {
	const lines = setAndSat(reader, db).map(({ set, sat }) => lineOf(db, set, sat, reader, now));
	const soonest = lines.toReversed();
	const done = ({ window, isOpen, sittings }: PaperLine) => window === 'open' && !isOpen && sittings.length > 0;
	return {
		open: openFirst(soonest.filter(({ isOpen }) => isOpen)),
		toCome: soonest.filter(({ window, isOpen }) => window === 'to-come' && !isOpen),
		sat: soonest.filter(done),
		over: lines.filter((line) => line.window !== 'to-come' && !line.isOpen && !done(line))
	};
}

/** Of them what is open alone, in the same order: nothing of what is over is looked up. @param now [ms since 1970] */
export function openPapersOf(reader: Reader, now = Date.now(), db: Database = database()): readonly PaperLine[] {
	const open = setAndSat(reader, db).filter(({ set, sat }) => isOpenNow(set, sat, now));
	return openFirst(open.map(({ set, sat }) => lineOf(db, set, sat, reader, now)).toReversed());
}

interface SetAndSat {
	readonly set: SetPaper;
	/** The reader's sittings of it. */
	readonly sat: readonly SittingRow[];
}

/** The latest window first. */
function setAndSat({ id }: Reader, db: Database): SetAndSat[] {
	return papersSetFor(db, id)
		.toSorted((a, b) => Number(b.paper.closes) - Number(a.paper.closes))
		.map((set) => ({ set, sat: sittingsOf(db, set.paper.id, set.member.id) }))
		.filter(({ set, sat }) => set.isLive || sat.length > 0);
}

const isOpenNow = (set: SetPaper, sat: readonly SittingRow[], now: number): boolean =>
	whyNot(set, sat.length, now) === null || sat.some((one) => !isOver(one, now));

const openFirst = (lines: readonly PaperLine[]): PaperLine[] => lines.toSorted((a, b) => leftOf(a) - leftOf(b));

/** Of what is not being sat there is as much as one likes. */
const leftOf = ({ sittings }: PaperLine): number => sittings.find(({ isRunning }) => isRunning)?.minutesLeft ?? Number.MAX_SAFE_INTEGER;

/** @returns null where no such paper was set for this reader. @param now [ms since 1970] */
export function paperSheet(paperId: string, reader: Reader, now = Date.now(), db: Database = database()): PaperSheet | null {
	const [set] = papersSetFor(db, reader.id, paperId);
	if (!set) return null;
	const { paper, member } = set;
	const sat = sittingsOf(db, paperId, member.id);
	if (!set.isLive && sat.length === 0) return null;
	const line = lineOf(db, set, sat, reader, now);
	const { at, isCut } = deadlineOf(paper, member, now);
	const slots = slotsOf(blueprintOf(paper));
	return {
		...line,
		baseMinutes: paper.minutes,
		extraPercent: member.extraPercent,
		callouts: slots.filter(({ kind }) => kind === 'callout').length,
		drills: slots.filter(({ kind }) => kind === 'drill').length,
		attempts: paper.attempts,
		left: Math.max(0, paper.attempts - sat.length),
		passRule: passRuleOf(paper),
		cut: isCut && line.window === 'open' ? { at: clockTime(at, reader.zone), minutes: minutesUntil(at, now) } : null,
		refused: whyNot(set, sat.length, now),
		running: line.sittings.find(({ isRunning }) => isRunning)?.id ?? null,
		zone: reader.zone
	};
}

export interface RunningSitting {
	readonly id: string;
	/** Of its paper. */
	readonly title: string;
	/** The deadline as the clock on the learner's wall has it. */
	readonly until: string;
}

/** The sitting of a learner's that runs now, of several the one that ends first; null where none does. @param now [ms since 1970] */
export function runningSitting(reader: Reader, now = Date.now(), db: Database = database()): RunningSitting | null {
	const runs = and(eq(member.learner, reader.id), isNull(sitting.ended), gt(sitting.deadline, new Date(now)));
	const found = db
		.select({ id: sitting.id, title: paper.title, deadline: sitting.deadline })
		.from(sitting)
		.innerJoin(member, eq(member.id, sitting.member))
		.innerJoin(paper, eq(paper.id, sitting.paper))
		.where(runs)
		.orderBy(asc(sitting.deadline))
		.limit(1)
		.get();
	return found ? { id: found.id, title: found.title, until: clockTime(found.deadline.getTime(), reader.zone) } : null;
}

function lineOf(db: Database, set: SetPaper, sat: readonly SittingRow[], { zone }: Reader, now: number): PaperLine {
	const { paper, member, cohort } = set;
	const sittings = sat.map((one): SatLine => {
		const isRunning = !isOver(one, now);
		return {
			id: one.id,
			number: one.number,
			isRunning,
			minutesLeft: minutesUntil(one.deadline.getTime(), now),
			began: timeWords(one.started.getTime(), now, zone),
			result: resultOf(db, one.id, now)
		};
	});
	const window = windowOf(paper, now);
	return {
		id: paper.id,
		title: paper.title,
		cohort,
		mode: paper.mode,
		minutes: minutesFor(paper, member),
		opens: timeWords(paper.opens?.getTime() ?? now, now, zone),
		closes: timeWords(paper.closes?.getTime() ?? now, now, zone),
		window,
		isOpen: isOpenNow(set, sat, now),
		sittings
	};
}

function resultOf(db: Database, sittingId: string, now: number): SatLine['result'] {
	const own = ownResult(db, sittingId, now);
	if (!own) return null;
	const { got, outOf, percent, passed } = own.outcome;
	return { got, outOf, percent, passed };
}
