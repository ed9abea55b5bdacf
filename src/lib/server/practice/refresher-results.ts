/** What came of a refresher, for the page that is taken along to the job. */
import type { Judged } from '#shared/review/drills/drill.ts';
import { areas } from '#shared/scenario/areas.ts';
import { criteria, type Criterion, type Debrief } from '#shared/marking/mark-sheet.ts';
import type { Recall } from '#shared/marking/recall.ts';
import { lookOutFor, type Went } from '#shared/review/refresher/look-out.ts';
import type { Callouts } from '../callouts/callouts.ts';
import { inAMoment } from '../patience.ts';
import type { Drills } from './drills.ts';
import type { Memories } from './memories.ts';
import { dateWords } from './nights.ts';
import type { Refreshers, RefresherSheet } from './refreshers.ts';
import type { Item, ItemState } from './round-items.ts';
import type { RefresherFamilies } from './round-view.ts';
import type { Rounds } from './rounds.ts';

/** One callout and its bill. */
export interface CalloutResult {
	readonly place: number;
	readonly state: ItemState;
	readonly href: string | null;
	/** Null until it is done and marked. */
	readonly bill: Bill | null;
}

export interface Bill {
	readonly fault: string;
	readonly area: string;
	readonly recall: Recall;
	readonly marks: number;
	readonly outOf: number;
	/** Where marks were lost, and how many. */
	readonly lost: readonly { readonly criterion: Criterion; readonly marks: number }[];
	readonly minutes: number;
	readonly spent: number;
	readonly currency: string;
	/** A dangerous act ended the visit, and it failed whatever its marks. */
	readonly failed: boolean;
}

/** The drill of the firing sequence; `judged` null until it is answered. */
export interface DrillResult {
	readonly state: ItemState;
	readonly href: string | null;
	readonly judged: Pick<Judged, 'right' | 'recall'> | null;
}

export interface RefresherResult {
	readonly isOpen: boolean;
	/** `Wednesday 25 November 2026`, by the learner's own days. */
	readonly date: string;
	/** Null where a family is no longer in stock, so that they cannot be compared. */
	readonly sheet: RefresherSheet | null;
	/** The families as they were chosen, by id. */
	readonly families: RefresherFamilies;
	readonly drill: DrillResult | null;
	readonly callouts: readonly CalloutResult[];
	/** Empty where the families cannot be compared. */
	readonly lookOut: readonly string[];
	readonly isMarking: boolean;
}

export interface ResultParts {
	readonly callouts: Callouts;
	readonly drills: Drills;
	readonly memories: Memories;
	readonly rounds: Rounds;
	readonly refreshers: Refreshers;
}

interface Done {
	readonly debrief: Debrief;
	readonly currency: string;
	readonly breaches: Went['breaches'];
}

export function refresherResultsIn({ callouts, drills, memories, rounds, refreshers }: ResultParts) {
	/** The debrief of a callout that has ended, where it comes within a moment. */
	async function doneOf({ row }: Item, learnerId: string): Promise<Done | null> {
		if (row.attempt === null || !row.attemptEnded) return null;
		const found = await inAMoment(callouts.debrief(row.attempt, learnerId)).catch(() => null);
		if (found?.outcome !== 'debriefed') return null;
		const { rules, events } = found.callout.view;
		return { debrief: found.debrief, currency: rules.currency, breaches: events.flatMap(({ breaches }) => breaches) };
	}

	async function drillResult({ row, state }: Item, learnerId: string, href: string | null): Promise<DrillResult> {
		const found = row.drill === null ? null : await drills.find(row.drill, learnerId);
		const judged = found?.outcome === 'standing' ? (found.drill.answered?.judged ?? null) : null;
		return { state, href, judged: judged && { right: judged.right, recall: judged.recall } };
	}

	/** @returns null where this learner has no such refresher */
	return async (id: string, learnerId: string, now: number): Promise<RefresherResult | null> => {
		const found = rounds.find(id, learnerId, now);
		if (!found || found.round.refresher === null) return null;
		const { round, items, view } = found;
		const families = JSON.parse(round.refresher!) as RefresherFamilies;
		const compared = refreshers.compare(families);
		const sheet = compared.outcome === 'compared' && compared.sheet.missing.length === 0 ? compared.sheet : null;
		const drill = items.find(({ wanted }) => wanted.kind === 'drill');
		const visits = items.filter(({ wanted }) => wanted.kind === 'callout');
		const done = await Promise.all(visits.map((item) => doneOf(item, learnerId)));
		const went = done.flatMap((one) => (one ? [wentOf(one)] : []));
		return {
			isOpen: view.isOpen,
			date: dateWords(round.created.getTime(), memories.schedulerOf(learnerId).zone),
			sheet,
			families,
			drill: drill ? await drillResult(drill, learnerId, view.lines[drill.row.place]!.href) : null,
			callouts: visits.map(({ row: { place }, state }, index) => {
				const one = done[index];
				return { place, state, href: view.lines[place]!.href, bill: one ? billOf(one) : null };
			}),
			lookOut: sheet ? lookOutFor(sheet.differences, went) : [],
			isMarking: visits.some(({ state, row }, index) => state !== 'over' && row.attemptEnded !== null && !done[index])
		};
	};
}

function wentOf({ debrief: { fault, sheet }, breaches }: Done): Went {
	return { recall: sheet.recall, fault: fault.says, because: fault.because, breaches };
}

function billOf({ debrief: { fault, sheet, cost }, currency }: Done): Bill {
	const lost = criteria.map((criterion) => {
		const { got, outOf } = sheet.byCriterion[criterion];
		return { criterion, marks: outOf - got };
	});
	return {
		fault: fault.says,
		area: areas[fault.area],
		recall: sheet.recall,
		marks: sheet.total,
		outOf: sheet.outOf,
		lost: lost.filter(({ marks }) => marks > 0),
		minutes: cost.minutes,
		spent: cost.spent,
		currency,
		failed: sheet.failed
	};
}
