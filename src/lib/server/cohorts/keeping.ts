/** Cohorts made, named, archived and restored, and the list of those that an assessor keeps. */
import { randomBytes } from 'node:crypto';
import { and, asc, count, eq, exists, isNotNull, isNull, or } from 'drizzle-orm';
import { z } from 'zod';
import { appendAudit } from '../audit/audit.ts';
import type { Database } from '../database/open.ts';
import { cohort, cohortAssessor, member, paper, sitting } from '../database/schema.ts';
import { readFields } from '../forms/read-form.ts';
import { done, type RefusedForm } from '../outcomes.ts';
import { change, type By, type Changed } from './changing.ts';
import { newCode } from './codes.ts';
import { writtenName } from './written-name.ts';

const nameForm = z.object({ name: writtenName('Give the cohort a name.', 60) });

/** A cohort as the list has it. */
export interface CohortLine {
	readonly id: string;
	readonly name: string;
	readonly invented: boolean;
	readonly archived: boolean;
	/** On the register now, and those of them that have joined. */
	readonly members: number;
	readonly joined: number;
	readonly papers: number;
}

export function keepingIn(db: Database) {
	function rename(by: By, fields: unknown): Changed {
		const { data, problems } = readFields(nameForm, fields);
		if (problems) return { outcome: 'refused', problems };
		return change(db, by, ({ id }) => {
			db.update(cohort).set({ name: data.name }).where(eq(cohort.id, id)).run();
			appendAudit(db, { at: by.now, by: by.assessor, cohort: id, kind: 'cohort-renamed', subject: id, content: { name: data.name } });
			return done;
		});
	}

	function setArchived(by: By, archived: Date | null): Changed {
		const work = ({ id, archived: before }: { id: string; archived: Date | null }) => {
			// The same form sent twice.
			if ((before === null) === (archived === null)) return done;
			db.update(cohort).set({ archived }).where(eq(cohort.id, id)).run();
			const kind = archived ? 'cohort-archived' : 'cohort-restored';
			appendAudit(db, { at: by.now, by: by.assessor, cohort: id, kind, subject: id, content: {} });
			return done;
		};
		return change(db, by, work, { evenArchived: true });
	}

	return {
		/** The assessor's own cohorts and the invented ones; archived ones last. */
		list(assessorId: string): CohortLine[] {
			const own = and(eq(cohortAssessor.cohort, cohort.id), eq(cohortAssessor.assessor, assessorId));
			const kept = db
				.select()
				.from(cohort)
				.where(or(eq(cohort.invented, true), exists(db.select().from(cohortAssessor).where(own))))
				.orderBy(asc(cohort.archived), asc(cohort.invented), asc(cohort.name))
				.all();
			return kept.map(({ id, name, invented, archived }) => {
				const onIt = and(eq(member.cohort, id), isNull(member.left));
				const counted = db
					.select({ members: count(), joined: count(member.learner) })
					.from(member)
					.where(onIt)
					.get()!;
				const papers = db.select({ papers: count() }).from(paper).where(eq(paper.cohort, id)).get()!;
				return { id, name, invented, archived: archived !== null, ...counted, ...papers };
			});
		},

		/** Makes a cohort, kept by this assessor and joined by its code. @param fields  `name`, unchecked */
		make(assessorId: string, fields: unknown, now: number): { readonly outcome: 'made'; readonly id: string } | RefusedForm {
			const { data, problems } = readFields(nameForm, fields);
			if (problems) return { outcome: 'refused', problems };
			const id = randomBytes(12).toString('base64url');
			db.transaction(
				(inside) => {
					inside
						.insert(cohort)
						.values({ id, name: data.name, code: newCode(), created: new Date(now) })
						.run();
					inside
						.insert(cohortAssessor)
						.values({ cohort: id, assessor: assessorId, since: new Date(now) })
						.run();
					appendAudit(db, { at: now, by: assessorId, cohort: id, kind: 'cohort-made', subject: id, content: { name: data.name } });
				},
				{ behavior: 'immediate' }
			);
			return { outcome: 'made', id };
		},

		rename,
		archive: (by: By): Changed => setArchived(by, new Date(by.now)),
		restore: (by: By): Changed => setArchived(by, null),

		/** Renews the code that anybody joins by, or switches it off; the one before it opens nothing any more. */
		setCode(by: By, isOn: boolean): Changed {
			return change(db, by, ({ id }) => {
				db.update(cohort)
					.set({ code: isOn ? newCode() : null })
					.where(eq(cohort.id, id))
					.run();
				appendAudit(db, { at: by.now, by: by.assessor, cohort: id, kind: 'code-renewed', subject: id, content: { isOn } });
				return done;
			});
		},

		/** Whether a learner is to find the way to papers: who is on a register, and who has left one and sat a paper before. */
		hasPapers(learnerId: string): boolean {
			const isOn = and(isNull(member.left), isNotNull(member.joined));
			const hasSat = exists(db.select().from(sitting).where(eq(sitting.member, member.id)));
			const found = and(eq(member.learner, learnerId), or(isOn, hasSat));
			return db.select({ id: member.id }).from(member).where(found).limit(1).get() !== undefined;
		}
	};
}
