/** A callout to project in front of a cohort: it hides a fault of one area, and belongs to the assessor who starts it. */
import { randomInt } from 'node:crypto';
import { NoComplaint } from '#shared/callout/make.ts';
import { mostSeed } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Callouts } from '../callouts/callouts.ts';
import type { Database } from '../database/open.ts';
import { missing, type Missing } from '../outcomes.ts';
import { cohortOf } from './kept.ts';

export type Projected = { readonly outcome: 'started'; readonly attemptId: string } | Missing;

const mostDraws = 40;

export function lessonIn(db: Database, callouts: Callouts, known: ReadonlyMap<string, Pack>) {
	/** @param wanted  family and area, unchecked; `missing` where the family has no fault in the area, or the cohort is not the assessor's */
	return (assessorId: string, cohortId: string, wanted: { family: string; area: string }, now: number): Projected => {
		const faults = known.get(wanted.family)?.faults.filter(({ area }) => area === wanted.area) ?? [];
		if (faults.length === 0 || !cohortOf(db, assessorId, cohortId)) return missing;
		for (let draw = 0; ; draw++) {
			try {
				const { id: fault } = faults[randomInt(faults.length)]!;
				const started = callouts.start(assessorId, { family: wanted.family, fault, seed: randomInt(mostSeed + 1) }, now);
				return started.outcome === 'started' ? started : missing;
			} catch (error) {
				// Of the machine that was drawn nobody would complain: another has others.
				if (!(error instanceof NoComplaint) || draw >= mostDraws) throw error;
			}
		}
	};
}
