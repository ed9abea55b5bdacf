/** Who a learner is, as the rest of the server knows them. */
import { randomUUID } from 'node:crypto';
import { and, eq } from 'drizzle-orm';
import { defaultZone } from '#shared/review/memory/memory.ts';
import { database, type Database } from '../database/open.ts';
import { learner, type LearnerRow, type Role } from '../database/schema.ts';

export interface Learner {
	readonly id: string;
	/** Known by the session of one browser only; an account has a name and a password. */
	readonly guest: boolean;
	readonly invented: boolean;
	readonly role: Role;
	/** Null for a guest. */
	readonly name: string | null;
	/** IANA name of the time zone in which their days turn. */
	readonly zone: string;
}

/** Of a row, no more than pages may see. */
export function learnerOf({ id, guest, invented, role, name, zone }: Learner): Learner {
	return { id, guest, invented, role, name, zone };
}

/** Adds a learner without a name and without a session. */
export function addLearner(
	{ guest, invented, zone = defaultZone }: { guest: boolean; invented: boolean; zone?: string },
	db: Database = database()
): Learner {
	const added: Learner = { id: randomUUID(), guest, invented, zone, role: 'learner', name: null };
	db.insert(learner)
		.values({ ...added, created: new Date() })
		.run();
	return added;
}

export function learnerById(id: string): LearnerRow | undefined {
	return database().select().from(learner).where(eq(learner.id, id)).get();
}

/** The account of that name, whichever way the name is written. */
export function accountNamed(nameKey: string): LearnerRow | undefined {
	return database()
		.select()
		.from(learner)
		.where(and(eq(learner.nameKey, nameKey), eq(learner.guest, false)))
		.get();
}
