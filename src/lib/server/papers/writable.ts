/** What an assessor may change: what is of their own cohorts, neither invented nor archived. */
import { unchangeable } from '../cohorts/changing.ts';
import { cohortOf, paperOf, type AtCohort, type AtPaper } from '../cohorts/kept.ts';
import type { Database } from '../database/open.ts';
import type { CohortRow, PaperRow } from '../database/schema.ts';
import { conflict, missing, type Missing, type Refused } from '../outcomes.ts';

export function writableCohort(db: Database, at: AtCohort): CohortRow | Missing | Refused {
	const cohort = cohortOf(db, at.assessor, at.cohort);
	if (!cohort) return missing;
	const says = unchangeable(cohort);
	return says === null ? cohort : conflict(says);
}

export function writablePaper(db: Database, at: AtPaper): PaperRow | Missing | Refused {
	const found = paperOf(db, at.assessor, at.cohort, at.paper);
	if (!found) return missing;
	const says = unchangeable(found.cohort);
	return says === null ? found.paper : conflict(says);
}

/** A paper that is not set yet. */
export function writableDraft(db: Database, at: AtPaper): PaperRow | Missing | Refused {
	const row = writablePaper(db, at);
	if ('outcome' in row || row.set === null) return row;
	return conflict('This paper is set, and what its learners were given does not change. Copy it to make another.');
}
