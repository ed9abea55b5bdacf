/** Hot queries of drills, prepared once a database. */
import { and, eq, isNull, sql } from 'drizzle-orm';
import type { Database } from './open.ts';
import { drill, type DrillRow } from './schema.ts';

export function drillsIn(db: Database) {
	const byId = db
		.select()
		.from(drill)
		.where(eq(drill.id, sql.placeholder('id')))
		.prepare();
	const askedOf = db
		.select({ id: drill.id, generator: drill.generator, family: drill.family, seed: drill.seed, created: drill.created })
		.from(drill)
		.where(eq(drill.learner, sql.placeholder('learner')))
		.prepare();

	return {
		find: (id: string): DrillRow | undefined => byId.get({ id }),
		/** What was asked of this learner before. */
		asked: (learner: string) => askedOf.all({ learner }),
		add: (row: typeof drill.$inferInsert): void => void db.insert(drill).values(row).run(),
		/** @returns whether this answer was the first */
		answer: (id: string, answer: string, answered: Date): boolean =>
			db
				.update(drill)
				.set({ answer, answered })
				.where(and(eq(drill.id, id), isNull(drill.answered)))
				.run().changes > 0
	};
}
