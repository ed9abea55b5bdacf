/** What every change of a cohort asks first: that it is the assessor's own, and that it is one that changes. */
import type { Database } from '../database/open.ts';
import type { CohortRow } from '../database/schema.ts';
import { conflict, missing, type Done, type Missing, type Refused, type RefusedForm } from '../outcomes.ts';
import { cohortOf, type AtCohort } from './kept.ts';

export type Changed = Done | Missing | RefusedForm;

/** Who changes which cohort, and when [ms since 1970]. */
export interface By extends AtCohort {
	readonly now: number;
}

/** Why nothing of a cohort can be changed, in a sentence; null where it can. */
export function unchangeable({ invented, archived }: Pick<CohortRow, 'invented' | 'archived'>, evenArchived = false): string | null {
	if (invented) return 'This cohort is invented, to show what the pages look like. It can be looked at and not changed.';
	if (archived && !evenArchived) return 'This cohort is archived. Restore it before you change it.';
	return null;
}

/**
 * Changes a cohort in one transaction. Whatever is refused must be refused before anything is written.
 * @param work  what is done with the cohort as it stands
 */
export function change<Result extends { readonly outcome: string }>(
	db: Database,
	{ assessor, cohort }: By,
	work: (kept: CohortRow) => Result,
	{ evenArchived = false } = {}
): Result | Missing | Refused {
	return db.transaction(
		() => {
			const kept = cohortOf(db, assessor, cohort);
			if (!kept) return missing;
			const says = unchangeable(kept, evenArchived);
			return says === null ? work(kept) : conflict(says);
		},
		{ behavior: 'immediate' }
	);
}
