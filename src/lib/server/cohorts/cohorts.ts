/** The services of cohorts joined to each other over one database, and what their pages show. */
import type { Pack } from '#shared/scenario/pack.ts';
import { callouts, type Callouts } from '../callouts/callouts.ts';
import { database, type Database } from '../database/open.ts';
import type { CohortRow } from '../database/schema.ts';
import { packs } from '../packs/packs.ts';
import { practice, type Practice } from '../practice/practice.ts';
import type { By, Changed } from './changing.ts';
import { colleaguesIn } from './colleagues.ts';
import { joiningIn } from './joining.ts';
import { keepingIn } from './keeping.ts';
import { cohortOf } from './kept.ts';
import { lessonIn } from './lesson.ts';
import { mayMerge, mergeLines } from './merging.ts';
import { joinLink } from './links.ts';
import { papersOfCohort } from './papers-of-cohort.ts';
import { practisedIn } from './practised.ts';
import { onRegister, registerIn, standingOf } from './register.ts';

export type Cohorts = ReturnType<typeof cohortsIn>;

/** As pages may see it: without the code, which opens it. */
const shownOf = ({ id, name, invented, archived }: CohortRow) => ({ id, name, invented, archived: archived !== null });

/** @param known  the packs of today by family */
export function cohortsIn(
	db: Database,
	practice: Pick<Practice, 'memories' | 'plans'>,
	callouts: Callouts,
	known: ReadonlyMap<string, Pack>
) {
	const register = registerIn(db);
	const colleagues = colleaguesIn(db);
	const practised = practisedIn(db, practice);

	return {
		...keepingIn(db),
		register,
		colleagues,
		joining: joiningIn(db),
		merge: (by: By, lineId: string, intoId: string): Changed => mergeLines(db, by, lineId, intoId),
		project: lessonIn(db, callouts, known),

		/** A cohort's own page; null for one that is not the assessor's. @param now [ms since 1970] */
		page(assessorId: string, cohortId: string, now: number) {
			const kept = cohortOf(db, assessorId, cohortId);
			if (!kept) return null;
			const members = onRegister(db, cohortId);
			const minutes = practised.minutes(members, now);
			return {
				cohort: shownOf(kept),
				members: members.map((member) => ({
					id: member.id,
					name: member.name,
					reference: member.reference,
					standing: standingOf(member),
					practised: minutes.get(member.id) ?? null
				})),
				...practised.skills(members, now),
				families: practised.families,
				papers: papersOfCohort(db, cohortId, now)
			};
		},

		/** The page of its register; null for one that is not the assessor's. @param origin  of this server, for the link */
		registerPage(assessorId: string, cohortId: string, origin: string) {
			const kept = cohortOf(db, assessorId, cohortId);
			if (!kept) return null;
			return {
				cohort: shownOf(kept),
				// An invented cohort is every assessor's to look at, and nobody's to join.
				open: kept.code === null || kept.invented ? null : joinLink(origin, kept.code),
				lines: register.lines(cohortId),
				/** Of those lines that may go into another. */
				mergeable: onRegister(db, cohortId)
					.filter((line) => mayMerge(db, line))
					.map(({ id }) => id),
				colleagues: colleagues.of(cohortId).map((one) => ({ ...one, isOwn: one.id === assessorId }))
			};
		},

		/** The slips of those who have not joined yet; null for a cohort that is not the assessor's. */
		invitations(assessorId: string, cohortId: string, origin: string) {
			const kept = cohortOf(db, assessorId, cohortId);
			if (!kept) return null;
			const slips = register.lines(cohortId).flatMap(({ id, name, reference, code }) => {
				return code === null ? [] : [{ id, name, reference, ...joinLink(origin, code) }];
			});
			return { cohort: shownOf(kept), slips };
		}
	};
}

let service: Cohorts | undefined;
/** The cohorts of this process's database. */
export function cohorts(): Cohorts {
	service ??= cohortsIn(database(), practice(), callouts(), packs());
	return service;
}
