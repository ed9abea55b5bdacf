/** The mark sheet of a path. A pure function: the same callout, path and table give the same marks, to the last digit. */
import type { Callout } from '#shared/callout/callout.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Case } from './bill.ts';
import { economyLines, regretShare } from './economy.ts';
import { evidenceLines, misreadAreas } from './evidence-read.ts';
import { finishLines } from './finish.ts';
import { judgePath } from './judged-path.ts';
import { criteria } from './mark-sheet.ts';
import type { Criterion, MarkLine, MarkSheet } from './mark-sheet.ts';
import { fittings, partLines } from './parts.ts';
import { recallOf } from './recall.ts';
import { safetyLines, wasDangerous } from './safety.ts';

/** Marks are given to this part of one. */
const roundedTo = 10;

export function mark(callout: Callout, state: CalloutState, table: EvidenceTable): MarkSheet {
	const one: Case = { callout, state, path: judgePath(callout, state, table) };
	const drawnUp = [safetyLines(one), partLines(one), economyLines(one), evidenceLines(one), finishLines(one)];
	const marks = callout.pack.rules.marks;
	const bills = criteria.map((criterion, index) => capped(drawnUp[index], marks[criterion]));
	const byCriterion = Object.fromEntries(
		criteria.map((criterion, index) => [criterion, { got: rounded(marks[criterion] - sumLost(bills[index])), outOf: marks[criterion] }])
	) as Record<Criterion, { got: number; outOf: number }>;
	const failed = wasDangerous(one);
	const fitted = fittings(one);
	return {
		packHash: callout.pack.hash,
		seed: callout.seed,
		total: rounded(criteria.reduce((sum, criterion) => sum + byCriterion[criterion].got, 0)),
		outOf: criteria.reduce((sum, criterion) => sum + marks[criterion], 0),
		byCriterion,
		lines: bills.flat(),
		failed,
		recall: recallOf(
			{
				failed,
				cured: state.cured,
				guessed: fitted.some(({ grounds }) => grounds === 'guessed'),
				unproved: fitted.some(({ grounds, shown }) => grounds === 'likely' && !shown),
				regretShare: regretShare(one)
			},
			callout.pack.rules.weighing.recall
		),
		misread: misreadAreas(one)
	};
}

/** No criterion loses more than it holds: later lines lose what is left. */
function capped(lines: readonly MarkLine[], outOf: number): MarkLine[] {
	let left = outOf;
	return lines.map((each) => {
		const lost = rounded(Math.min(left, each.lost));
		left = Math.max(0, left - lost);
		return { ...each, lost };
	});
}

const sumLost = (lines: readonly MarkLine[]) => lines.reduce((sum, each) => sum + each.lost, 0);
const rounded = (marks: number) => Math.round(marks * roundedTo) / roundedTo;
