/** Who has an account on this server, and what each may do: for the owner. */
import { and, asc, count, eq, isNull, sql } from 'drizzle-orm';
import { onlyKeeper } from '../cohorts/keepers.ts';
import { appendAudit } from '../audit/audit.ts';
import { database, type Database } from '../database/open.ts';
import { learner, roles, type Role } from '../database/schema.ts';
import { conflict, missing, refused, type Missing, type Refused } from '../outcomes.ts';
import { nameKeyOf } from './names.ts';

export interface Person {
	readonly id: string;
	readonly name: string;
	readonly role: Role;
	readonly created: Date;
}

export interface People {
	readonly people: readonly Person[];
	/** That the search found, on all pages together. */
	readonly found: number;
	/** From 1; the last there is where a later one was asked for. */
	readonly page: number;
	readonly pages: number;
	readonly search: string;
}

/** On one page. */
export const mostOnPage = 50;

/** Accounts that somebody can sign in to. */
const isPerson = and(eq(learner.guest, false), eq(learner.invented, false), isNull(learner.gone));

/**
 * Accounts by name.
 * @param asked.search  what the name holds, however it is written; everyone where it is empty
 * @param asked.page    from 1
 */
export function people({ search = '', page = 1 }: { search?: string; page?: number }, db: Database = database()): People {
	const wanted = nameKeyOf(search.slice(0, 100));
	const where = wanted === '' ? isPerson : and(isPerson, sql`instr(${learner.nameKey}, ${wanted}) > 0`);
	const found = db.select({ count: count() }).from(learner).where(where).get()!.count;
	const pages = Math.max(1, Math.ceil(found / mostOnPage));
	const shown = Number.isInteger(page) ? Math.min(Math.max(page, 1), pages) : 1;
	const rows = db
		.select({ id: learner.id, name: learner.name, role: learner.role, created: learner.created })
		.from(learner)
		.where(where)
		.orderBy(asc(learner.nameKey))
		.limit(mostOnPage)
		.offset((shown - 1) * mostOnPage)
		.all();
	return { people: rows.map(({ name, ...row }) => ({ ...row, name: name ?? '' })), found, page: shown, pages, search };
}

export type RoleGiven = { readonly outcome: 'given'; readonly name: string; readonly role: Role } | Refused | Missing;

/**
 * Gives an account a role. It holds from the account's next request on. The last owner stays one, or nobody could say who is what.
 * @param by    id of the owner who does it
 * @param role  unchecked
 * @param now   [ms since 1970]
 */
export function giveRole(by: string, personId: string, role: unknown, now = Date.now(), db: Database = database()): RoleGiven {
	const wanted = roles.find((one) => one === role);
	if (!wanted) return refused(`A role is one of ${roles.join(', ')}.`);
	return db.transaction(
		(inside): RoleGiven => {
			const person = inside
				.select()
				.from(learner)
				.where(and(eq(learner.id, personId), isPerson))
				.get();
			if (!person) return missing;
			const name = person.name ?? '';
			if (person.role === wanted) return { outcome: 'given', name, role: wanted };
			if (person.role === 'owner' && ownersIn(inside) === 1) return conflict(`${name} is the only owner. Make somebody else one first.`);
			const keepsNoMore = wanted !== 'assessor' && wanted !== 'owner';
			const alone = keepsNoMore ? onlyKeeper(db, personId, { is: `${name} is`, they: 'they add' }) : null;
			if (alone !== null) return conflict(alone);
			inside.update(learner).set({ role: wanted }).where(eq(learner.id, personId)).run();
			const content = { from: person.role, to: wanted };
			appendAudit(db, { at: now, by, cohort: null, kind: 'role-changed', subject: personId, content });
			return { outcome: 'given', name, role: wanted };
		},
		{ behavior: 'immediate' }
	);
}

const ownersIn = (db: Pick<Database, 'select'>): number =>
	db
		.select({ count: count() })
		.from(learner)
		.where(and(eq(learner.role, 'owner'), isPerson))
		.get()!.count;
