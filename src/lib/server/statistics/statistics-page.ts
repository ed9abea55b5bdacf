/** The statistics of a paper, for its page and as a file. */
import { appendAudit } from '../audit/audit.ts';
import { paperOf, type AtPaper } from '../cohorts/kept.ts';
import { csvOf } from '../csv.ts';
import { database, type Database } from '../database/open.ts';
import type { CohortRow, PaperRow } from '../database/schema.ts';
import { itemFiguresIn, type ItemFiguresOfPaper } from './item-figures.ts';

export interface StatisticsPage extends ItemFiguresOfPaper {
	readonly cohort: Pick<CohortRow, 'id' | 'name' | 'invented'>;
	readonly paper: Pick<PaperRow, 'id' | 'title' | 'mode' | 'minutes' | 'closes'>;
	/** Whether sittings may still begin or run. */
	readonly isOpen: boolean;
}

/** @returns null where there is no such paper of the assessor's own that was set */
export function statisticsIn(db: Database, at: AtPaper, now: number): StatisticsPage | null {
	const own = paperOf(db, at.assessor, at.cohort, at.paper);
	if (!own || own.paper.set === null) return null;
	const { id, title, mode, minutes, closes } = own.paper;
	return {
		...itemFiguresIn(db, own.paper),
		cohort: { id: own.cohort.id, name: own.cohort.name, invented: own.cohort.invented },
		paper: { id, title, mode, minutes, closes },
		isOpen: closes === null || now < closes.getTime()
	};
}

const header = [
	'item',
	'item name',
	'out of',
	'sitters',
	'facility',
	'facility low 95 %',
	'facility high 95 %',
	'corrected item-total r',
	'r low 95 %',
	'r high 95 %',
	'r from 30 sitters',
	'alpha without item',
	'begun',
	'median minutes',
	'lower quartile minutes',
	'upper quartile minutes',
	'left out because'
];

const rounded = (value: number | null | undefined, places = 4) =>
	value === null || value === undefined ? null : Number(value.toFixed(places));

function itemsTable({ items, figures, times }: ItemFiguresOfPaper) {
	return figures.items.map(({ slot, outOf, facility, discrimination, alphaWithout }) => [
		slot + 1,
		items[slot]!,
		outOf,
		figures.sitters,
		rounded(facility.value?.share),
		...[facility.value?.low, facility.value?.high].map((one) => rounded(one)),
		rounded(discrimination.value?.r),
		...[discrimination.value?.interval.value?.low, discrimination.value?.interval.value?.high].map((one) => rounded(one)),
		discrimination.value === null ? null : discrimination.value.greyed ? 'no' : 'yes',
		rounded(alphaWithout.value),
		times[slot]!.begun,
		...[times[slot]!.median, times[slot]!.lower, times[slot]!.upper].map((one) => rounded(one, 2)),
		[
			...new Set(
				[facility.why, discrimination.why, discrimination.value?.interval.why ?? null, alphaWithout.why].filter((why) => why !== null)
			)
		].join(' ') || null
	]);
}

/**
 * The figures of items, a row each; that they were taken out stands in the audit trail.
 * @param isTaken  false where the file's head alone was asked for
 * @returns null as `statisticsIn` does
 */
export function itemsFileIn(db: Database, at: AtPaper, now: number, isTaken = true): string | null {
	return db.transaction(
		() => {
			const page = statisticsIn(db, at, now);
			if (!page) return null;
			const rows = itemsTable(page);
			const content = { file: 'items', rows: rows.length };
			if (isTaken) appendAudit(db, { at: now, by: at.assessor, cohort: at.cohort, kind: 'exported', subject: at.paper, content });
			return csvOf(header, rows);
		},
		{ behavior: 'immediate' }
	);
}

export const statistics = (at: AtPaper, now = Date.now()) => statisticsIn(database(), at, now);
export const itemsFile = (at: AtPaper, now = Date.now(), isTaken = true) => itemsFileIn(database(), at, now, isTaken);
