/** Who keeps a cohort together. */
import { and, asc, eq, inArray } from 'drizzle-orm';
import { z } from 'zod';
import { addressOf } from '../accounts/address.ts';
import { countLookUp } from '../accounts/limits.ts';
import { nameKeyOf } from '../accounts/names.ts';
import { appendAudit } from '../audit/audit.ts';
import type { Database } from '../database/open.ts';
import { cohortAssessor, learner } from '../database/schema.ts';
import { readFields } from '../forms/read-form.ts';
import { conflict, done, missing, refused } from '../outcomes.ts';
import { change, type By, type Changed } from './changing.ts';

export interface Colleague {
	readonly id: string;
	readonly name: string;
}

const colleagueForm = z.object({ colleague: z.string().trim().min(1, 'Write the colleague’s name.').max(1000, 'No name is that long.') });

export function colleaguesIn(db: Database) {
	return {
		/** Those who keep the cohort, the first of them first. */
		of(cohortId: string): Colleague[] {
			return db
				.select({ id: learner.id, name: learner.name })
				.from(cohortAssessor)
				.innerJoin(learner, eq(learner.id, cohortAssessor.assessor))
				.where(eq(cohortAssessor.cohort, cohortId))
				.orderBy(asc(cohortAssessor.since))
				.all()
				.map(({ id, name }) => ({ id, name: name ?? 'deleted account' }));
		},

		/**
		 * Adds an assessor. Of a name that no assessor bears the same is said whether an account has it or none; and such tries are
		 * limited.
		 * @param visit   by whose address tries are counted
		 * @param fields  `colleague`, the name of the account, unchecked
		 */
		add(visit: { getClientAddress(): string }, by: By, fields: unknown): Changed {
			const { data, problems } = readFields(colleagueForm, fields);
			if (problems) return { outcome: 'refused', problems };
			const tried = countLookUp({ learnerId: by.assessor, address: addressOf(visit) }, by.now);
			if (tried.says !== undefined) return refused(tried.says);
			return change(db, by, ({ id }) => {
				const named = and(eq(learner.nameKey, nameKeyOf(data.colleague)), inArray(learner.role, ['assessor', 'owner']));
				const found = db.select({ id: learner.id }).from(learner).where(named).get();
				if (!found) return { outcome: 'refused', problems: { colleague: 'There is no assessor of that name here.' } } as const;
				tried.forgive();
				const { changes } = db
					.insert(cohortAssessor)
					.values({ cohort: id, assessor: found.id, since: new Date(by.now) })
					.onConflictDoNothing()
					.run();
				if (changes > 0)
					appendAudit(db, { at: by.now, by: by.assessor, cohort: id, kind: 'assessor-added', subject: found.id, content: {} });
				return done;
			});
		},

		/** Takes a colleague off; nobody takes themselves off, so that a cohort is always kept by somebody. */
		drop(by: By, colleagueId: string): Changed {
			return change(db, by, ({ id }) => {
				if (colleagueId === by.assessor) return conflict('You keep this cohort. A colleague can take you off.');
				const kept = and(eq(cohortAssessor.cohort, id), eq(cohortAssessor.assessor, colleagueId));
				const { changes } = db.delete(cohortAssessor).where(kept).run();
				if (changes === 0) return missing;
				appendAudit(db, { at: by.now, by: by.assessor, cohort: id, kind: 'assessor-removed', subject: colleagueId, content: {} });
				return done;
			});
		}
	};
}
