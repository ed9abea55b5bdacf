/** What the page of a sitting shows: the paper while it runs, where else it runs, what happens next, and in the end the result. */
import type { Outcome } from '#shared/assessment/pass-rule.ts';
import { database, type Database } from '../database/open.ts';
import { whyUnmarked, type Marking } from '../sheets/marking.ts';
import { ownResult, type OwnItem } from '../sheets/own-result.ts';
import { papersSetFor, sittingsOf, whyNot } from './begin-sitting.ts';
import type { ItemState, SatItem } from './items.ts';
import type { Reader } from './learners-papers.ts';
import { releasedAt } from './release.ts';
import { standing, type Sat, type Sitter, type Sittings, type Standing } from './sittings.ts';
import { clockTime, timeWords } from './times.ts';

interface Head {
	readonly id: string;
	/** Id of the paper. */
	readonly paper: string;
	readonly title: string;
	readonly isFormal: boolean;
	readonly number: number;
	readonly attempts: number;
}

export interface RunningLine {
	readonly slot: number;
	readonly what: string;
	readonly outOf: number;
	readonly state: ItemState;
}

/** An item once it may be told. */
export interface MarkedLine extends RunningLine, OwnItem {
	/** Where what came of it is explained; null where it was never begun. */
	readonly href: string | null;
}

export type SittingPage =
	| ({
			readonly outcome: 'running';
			readonly deadline: number;
			readonly now: number;
			/** The deadline as the clock on the learner's wall has it. */
			readonly until: string;
			readonly items: readonly RunningLine[];
			/** The first that is not done. */
			readonly next: RunningLine | null;
	  } & Head)
	| ({ readonly outcome: 'elsewhere' } & Head)
	| ({
			readonly outcome: 'closed';
			readonly endedBy: 'handed-in' | 'time' | 'assessor';
			readonly endedAt: string;
			readonly items: readonly RunningLine[];
			/** When it is told, in words; null where it may be told and is still being marked. */
			readonly toldAt: string | null;
			/** Marking was tried, and could not be done so far. */
			readonly isStuck: boolean;
	  } & Head)
	| ({
			readonly outcome: 'told';
			readonly endedAt: string;
			readonly result: Outcome;
			/** Marks that are not locked may still change. */
			readonly isLocked: boolean;
			/** For practice, while the window is open and an attempt is left. */
			readonly canSitAgain: boolean;
			readonly items: readonly MarkedLine[];
	  } & Head)
	| { readonly outcome: 'missing' };

/** @param now [ms since 1970] */
export function sittingPage(
	sittingId: string,
	reader: Reader & Pick<Sitter, 'seat'>,
	now = Date.now(),
	db: Database = database(),
	stands: Sittings['standing'] = standing,
	why: Marking['unmarked'] = whyUnmarked
): SittingPage {
	const found = stands(sittingId, { learner: reader.id, seat: reader.seat }, now);
	switch (found.outcome) {
		case 'missing':
			return found;
		case 'elsewhere':
			return { outcome: 'elsewhere', ...headOf(found) };
		case 'running': {
			const items = found.items.map(lineOf);
			const next = items.find(({ state }) => state !== 'done') ?? null;
			const deadline = found.sitting.deadline.getTime();
			return { outcome: 'running', ...headOf(found), deadline, now, until: clockTime(deadline, reader.zone), items, next };
		}
		case 'closed':
			return closedPage(db, found, reader, now, why);
	}
}

function closedPage(
	db: Database,
	found: Extract<Standing, { outcome: 'closed' }>,
	{ id, zone }: Reader,
	now: number,
	why: Marking['unmarked']
): SittingPage {
	const { sitting, paper, items, isReleased } = found;
	const head = { ...headOf(found), endedAt: clockTime(sitting.ended!.getTime(), zone) };
	const own = ownResult(db, sitting.id, now);
	if (own) {
		const { outcome: result, isLocked } = own;
		const marked = items.map((item): MarkedLine => ({ ...lineOf(item), ...own.items[item.slot]!, href: hrefOf(item) }));
		return { outcome: 'told', ...head, result, isLocked, canSitAgain: canSitAgain(db, found, id, now), items: marked };
	}
	const toldAt = isReleased ? null : timeWords(releasedAt(paper, sitting) ?? now, now, zone);
	const isStuck = why(sitting.id) !== null;
	return { outcome: 'closed', ...head, endedBy: sitting.endedBy ?? 'time', items: items.map(lineOf), toldAt, isStuck };
}

function canSitAgain(db: Database, { paper, member }: Sat, learner: string, now: number): boolean {
	const [set] = paper.mode === 'practice' ? papersSetFor(db, learner, paper.id) : [];
	return set !== undefined && whyNot(set, sittingsOf(db, paper.id, member.id).length, now) === null;
}

function headOf({ sitting, paper }: Sat): Head {
	const { id, number } = sitting;
	return { id, paper: paper.id, title: paper.title, isFormal: paper.mode === 'formal', number, attempts: paper.attempts };
}

const lineOf = ({ slot, what, outOf, state }: SatItem): RunningLine => ({ slot, what, outOf, state });

/** An attempt that was opened and in which nothing was done has nothing to explain, but its debrief says the fault. */
function hrefOf({ attempt, drill, state }: SatItem): string | null {
	if (attempt !== null) return `/callout/${attempt}/debrief`;
	return drill !== null && state === 'done' ? `/drill/${drill}` : null;
}
