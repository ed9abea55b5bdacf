/** Begins a sitting of a paper. */
import { randomBytes } from 'node:crypto';
import { and, asc, eq } from 'drizzle-orm';
import { appendAudit } from '../audit/audit.ts';
import type { Database } from '../database/open.ts';
import {
	cohort,
	cohortAssessor,
	member,
	paper,
	sitting,
	sittingEvent,
	type MemberRow,
	type PaperRow,
	type SittingRow
} from '../database/schema.ts';
import { conflict, missing, type Missing, type Refused } from '../outcomes.ts';
import { deadlineOf, isOver, windowOf } from './allowed.ts';
import { variantFor } from './assign-variant.ts';

/** A paper that was set for a learner, as the member of its cohort that they are. */
export interface SetPaper {
	readonly paper: PaperRow;
	readonly member: MemberRow;
	/** Name of the cohort. */
	readonly cohort: string;
	/** Whether new sittings can be begun: the member has not left and the cohort is not archived. */
	readonly isLive: boolean;
	/** Whether the learner keeps the cohort as well, and so may look into its papers. */
	readonly isKeeper: boolean;
}

export type Begun =
	| { readonly outcome: 'begun'; readonly id: string }
	| Refused
	/** No such paper was set for this learner; also where it is somebody else's, so that an id tells nothing. */
	| Missing;

/** Papers that were set for a learner, by id; of one paper where it is named. */
export function papersSetFor(db: Database, learnerId: string, paperId?: string): SetPaper[] {
	const own = eq(member.learner, learnerId);
	const rows = db
		.select({ paper, member, cohort, keeper: cohortAssessor.assessor })
		.from(member)
		.innerJoin(cohort, eq(cohort.id, member.cohort))
		.innerJoin(paper, eq(paper.cohort, cohort.id))
		.leftJoin(cohortAssessor, and(eq(cohortAssessor.cohort, cohort.id), eq(cohortAssessor.assessor, learnerId)))
		.where(paperId === undefined ? own : and(own, eq(paper.id, paperId)))
		.all();
	return rows.flatMap(({ paper, member, cohort, keeper }) => {
		if (paper.set === null) return [];
		const isLive = member.left === null && cohort.archived === null;
		return [{ paper, member, cohort: cohort.name, isLive, isKeeper: keeper !== null }];
	});
}

/** A member's sittings of a paper, the first first. */
export function sittingsOf(db: Database, paperId: string, memberId: string): SittingRow[] {
	const theirs = and(eq(sitting.paper, paperId), eq(sitting.member, memberId));
	return db.select().from(sitting).where(theirs).orderBy(asc(sitting.number)).all();
}

/**
 * Begins a sitting, or goes on with the one that runs: two clicks begin one.
 * @param who.seat  of the session, as `sessionIdOf` gives it
 * @param now       [ms since 1970]
 */
export function beginSitting(db: Database, paperId: string, who: { learner: string; seat: string }, now: number): Begun {
	return db.transaction(
		(): Begun => {
			const [found] = papersSetFor(db, who.learner, paperId);
			if (!found) return missing;
			const before = sittingsOf(db, paperId, found.member.id);
			if (!found.isLive && before.length === 0) return missing;
			const running = before.find((one) => !isOver(one, now));
			if (running) return { outcome: 'begun', id: running.id };
			const barred = whyNot(found, before.length, now);
			if (barred !== null) return conflict(barred);
			const { paper, member } = found;
			const number = before.length + 1;
			const variant = variantFor(db, { paper: paperId, cohort: paper.cohort, member: member.id }, number);
			if (variant === null) return conflict('This paper has nothing in it. Tell your assessor.');
			const id = randomBytes(16).toString('base64url');
			const started = new Date(now);
			const deadline = new Date(deadlineOf(paper, member, now).at);
			db.insert(sitting)
				.values({ id, paper: paperId, member: member.id, variant, number, started, deadline, seat: who.seat, seen: started })
				.run();
			db.insert(sittingEvent).values({ sitting: id, at: started, kind: 'began' }).run();
			const content = { paper: paperId, number, variant, deadline: deadline.toISOString() };
			appendAudit(db, { at: now, by: who.learner, cohort: paper.cohort, kind: 'sitting-began', subject: id, content });
			return { outcome: 'begun', id };
		},
		{ behavior: 'immediate' }
	);
}

/** Why no sitting can be begun, in a sentence; null where one can. @param sat  sittings begun before */
export function whyNot({ paper, isLive, isKeeper }: SetPaper, sat: number, now: number): string | null {
	const state = windowOf(paper, now);
	if (!isLive) return 'No sitting of this paper can be begun any more: you are no longer on the register, or the cohort is archived.';
	if (isKeeper) return 'You keep this cohort. Whoever keeps one sees what is in its papers, and does not sit them.';
	if (state === 'to-come') return 'The window of this paper has not opened yet.';
	if (state === 'over') return 'The window of this paper is over.';
	return sat < paper.attempts ? null : 'You have no attempt at this paper left.';
}
