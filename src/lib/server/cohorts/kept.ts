/** Which cohorts an assessor keeps. Everything that concerns a cohort asks here first. */
import { and, eq, or } from 'drizzle-orm';
import type { Database } from '../database/open.ts';
import { cohort, cohortAssessor, paper, type CohortRow, type PaperRow } from '../database/schema.ts';

/** Which cohort, and who asks. */
export interface AtCohort {
	readonly assessor: string;
	readonly cohort: string;
}
export interface AtPaper extends AtCohort {
	readonly paper: string;
}

/** One of the assessor's own cohorts, or an invented one, which every assessor may look at; null for any other, so that an id tells nothing. */
export function cohortOf(db: Database, assessorId: string, cohortId: string): CohortRow | null {
	const kept = and(eq(cohortAssessor.cohort, cohort.id), eq(cohortAssessor.assessor, assessorId));
	const found = db
		.select({ cohort })
		.from(cohort)
		.leftJoin(cohortAssessor, kept)
		.where(and(eq(cohort.id, cohortId), or(eq(cohortAssessor.assessor, assessorId), eq(cohort.invented, true))))
		.get();
	return found?.cohort ?? null;
}

/** A paper of such a cohort. */
export function paperOf(
	db: Database,
	assessorId: string,
	cohortId: string,
	paperId: string
): { cohort: CohortRow; paper: PaperRow } | null {
	const own = cohortOf(db, assessorId, cohortId);
	const found =
		own &&
		db
			.select()
			.from(paper)
			.where(and(eq(paper.id, paperId), eq(paper.cohort, cohortId)))
			.get();
	return found ? { cohort: own, paper: found } : null;
}
