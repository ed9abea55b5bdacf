/** The invented learner whose example visits are for all to see; the others are on registers, or keep them. */
import { and, eq, notExists } from 'drizzle-orm';
import type { Database } from '../database/open.ts';
import { learner, member } from '../database/schema.ts';

export function inventedLearner(db: Database): string | undefined {
	const listed = db.select().from(member).where(eq(member.learner, learner.id));
	return db
		.select({ id: learner.id })
		.from(learner)
		.where(and(eq(learner.invented, true), eq(learner.role, 'learner'), notExists(listed)))
		.get()?.id;
}
