/** That every cohort is kept by somebody: who is the only one to, and whom an owner names. */
import { and, asc, count, eq, inArray, isNull } from 'drizzle-orm';
import { appendAudit } from '../audit/audit.ts';
import { database, type Database } from '../database/open.ts';
import { cohort, cohortAssessor, learner } from '../database/schema.ts';
import { conflict, done, refused, type Done, type Refused } from '../outcomes.ts';

/** Accounts that can keep a cohort. */
const canKeep = and(
	inArray(learner.role, ['assessor', 'owner']),
	eq(learner.guest, false),
	eq(learner.invented, false),
	isNull(learner.gone)
);

interface Named {
	readonly id: string;
	readonly name: string;
}

/** Cohorts that are not invented, and how many there are to keep each. */
function kept(db: Database): (Named & { readonly keepers: number })[] {
	return db
		.select({ id: cohort.id, name: cohort.name, keepers: count(learner.id) })
		.from(cohort)
		.leftJoin(cohortAssessor, eq(cohortAssessor.cohort, cohort.id))
		.leftJoin(learner, and(eq(learner.id, cohortAssessor.assessor), canKeep))
		.where(eq(cohort.invented, false))
		.groupBy(cohort.id)
		.orderBy(asc(cohort.name))
		.all();
}

/**
 * Why an account cannot go, or be no assessor any more, in a sentence that names the cohorts that nobody would keep then; null where there are
 * none.
 * @param called  how the account is spoken of
 */
export function onlyKeeper(db: Database, learnerId: string, called: { readonly is: string; readonly they: string }): string | null {
	const alone = kept(db).filter(({ keepers }) => keepers === 1);
	const own = db
		.select({ id: cohortAssessor.cohort })
		.from(cohortAssessor)
		.innerJoin(learner, and(eq(learner.id, cohortAssessor.assessor), canKeep))
		.where(eq(cohortAssessor.assessor, learnerId))
		.all();
	const names = alone.filter(({ id }) => own.some((one) => one.id === id)).map(({ name }) => name);
	if (names.length === 0) return null;
	const [which, its] =
		names.length === 1
			? [`the cohort ${names[0]!}`, 'its register']
			: [`the cohorts ${new Intl.ListFormat('en-GB').format(names)}`, 'their registers'];
	return `${called.is} the only one who keeps ${which}. First ${called.they} a colleague on ${its}, or an owner names another keeper on the page of people.`;
}

export interface ToKeep {
	/** Those that one assessor keeps or none does; `keeper` is null where none does. */
	readonly cohorts: readonly (Named & { readonly keeper: string | null })[];
	readonly assessors: readonly Named[];
}

/** What an owner chooses from to name a keeper. */
export function toKeep(db: Database = database()): ToKeep {
	const few = kept(db).filter(({ keepers }) => keepers < 2);
	const keepers = db
		.select({ cohort: cohortAssessor.cohort, name: learner.name })
		.from(cohortAssessor)
		.innerJoin(learner, and(eq(learner.id, cohortAssessor.assessor), canKeep))
		.all();
	const assessors = db.select({ id: learner.id, name: learner.name }).from(learner).where(canKeep).orderBy(asc(learner.nameKey)).all();
	return {
		cohorts: few.map(({ id, name }) => ({ id, name, keeper: keepers.find((one) => one.cohort === id)?.name ?? null })),
		assessors: assessors.map(({ id, name }) => ({ id, name: name ?? '' }))
	};
}

/**
 * Makes an assessor the keeper of a cohort that has none, or one only.
 * @param owner   id of the owner who does it
 * @param fields  `cohort` and `keeper`, ids, unchecked
 * @param now     [ms since 1970]
 */
export function nameKeeper(
	owner: string,
	fields: { readonly cohort?: string | undefined; readonly keeper?: string | undefined },
	now = Date.now(),
	db: Database = database()
): Done | Refused {
	return db.transaction(
		(): Done | Refused => {
			const { cohorts, assessors } = toKeep(db);
			const keeper = assessors.find(({ id }) => id === fields.keeper);
			if (!keeper) return refused('Choose an assessor.');
			const found = cohorts.find(({ id }) => id === fields.cohort);
			if (!found) return conflict('That cohort is not here, or two keep it already. They add colleagues on its register.');
			const row = { cohort: found.id, assessor: keeper.id, since: new Date(now) };
			if (db.insert(cohortAssessor).values(row).onConflictDoNothing().run().changes > 0)
				appendAudit(db, { at: now, by: owner, cohort: found.id, kind: 'assessor-added', subject: keeper.id, content: { byOwner: true } });
			return done;
		},
		{ behavior: 'immediate' }
	);
}
