/** What learners may do with their own account: see it, change the password, delete it. */
import { and, eq } from 'drizzle-orm';
import { z } from 'zod';
import { database } from '../database/open.ts';
import { learner, type LearnerRow, type Role } from '../database/schema.ts';
import { readFields } from '../forms/read-form.ts';
import { addressOf } from './address.ts';
import { learnerById } from './learners.ts';
import { countTry, forgetTries } from './limits.ts';
import { givenPassword, hashPassword, isPassword, newPassword } from './passwords.ts';
import { beginSession, endAllSessions, endSession } from './sessions.ts';
import type { AddressedVisit, Done, Refused } from './sign-in.ts';

/** As the account's own page shows it. */
export interface OwnAccount {
	readonly name: string;
	readonly email: string | null;
	readonly role: Role;
	readonly created: Date;
}

/** @returns null for a guest, who has none */
export function ownAccount(learnerId: string): OwnAccount | null {
	const row = learnerById(learnerId);
	return !row || row.name === null ? null : { name: row.name, email: row.email, role: row.role, created: row.created };
}

const passwordForm = z.object({ password: givenPassword, newPassword });

/** Changes the password. Every other browser is signed out. @param fields  `password` and `newPassword`, unchecked */
export async function changePassword(visit: AddressedVisit, fields: unknown, now = Date.now()): Promise<Done | Refused> {
	const { data, problems } = readFields(passwordForm, fields);
	if (problems) return { outcome: 'refused', problems };
	const account = await confirmed(visit, data.password, now);
	if ('outcome' in account) return account;
	const password = await hashPassword(data.newPassword);
	return database().transaction(
		(inside): Done | Refused => {
			const present = stillSo(account);
			if ('outcome' in present) return present;
			inside.update(learner).set({ password }).where(eq(learner.id, account.id)).run();
			endAllSessions(account.id);
			beginSession(visit, present);
			return { outcome: 'done' };
		},
		{ behavior: 'immediate' }
	);
}

const sure = z.literal('yes', 'Tick this to say that you are sure.');
const deletionForm = z.object({ password: givenPassword, sure });
const guestDeletionForm = z.object({ sure });

/**
 * Deletes the account and all that it did. It cannot be undone.
 * @param fields  `password` and `sure`, unchecked
 */
export async function deleteAccount(visit: AddressedVisit, fields: unknown, now = Date.now()): Promise<Done | Refused> {
	const { data, problems } = readFields(deletionForm, fields);
	if (problems) return { outcome: 'refused', problems };
	const account = await confirmed(visit, data.password, now);
	if ('outcome' in account) return account;
	database().delete(learner).where(eq(learner.id, account.id)).run();
	forgetTries({ nameKey: account.nameKey!, learnerId: account.id });
	endSession(visit);
	return { outcome: 'done' };
}

/** The same of what was kept for a guest, who has no password to be asked for. @param fields  `sure`, unchecked */
export async function deleteGuest(visit: AddressedVisit, fields: unknown): Promise<Done | Refused> {
	const { problems } = readFields(guestDeletionForm, fields);
	if (problems) return { outcome: 'refused', problems };
	const guest = visit.locals.learner;
	// Never an account, which is to be asked for its password.
	if (guest)
		database()
			.delete(learner)
			.where(and(eq(learner.id, guest.id), eq(learner.guest, true)))
			.run();
	endSession(visit);
	return { outcome: 'done' };
}

const noAccount: Refused = { outcome: 'refused', says: 'You are not signed in to an account.' };
const notYours: Refused = { outcome: 'refused', problems: { password: 'This is not your password.' } };

/** The account of this visit, once its password has been given again; tries are limited as those of signing in are, and counted apart. */
async function confirmed(visit: AddressedVisit, password: string, now: number): Promise<LearnerRow | Refused> {
	const account = visit.locals.learner ? learnerById(visit.locals.learner.id) : undefined;
	if (!account || account.nameKey === null) return noAccount;
	const tried = countTry({ learnerId: account.id, address: addressOf(visit) }, now);
	if (tried.says !== undefined) return { outcome: 'refused', says: tried.says };
	if (!(await isPassword(account.password, password))) return notYours;
	const present = stillSo(account);
	if (!('outcome' in present)) tried.forgive();
	return present;
}

/** The account as it stands, unless it is gone or its password has become another since it was read. */
function stillSo(account: LearnerRow): LearnerRow | Refused {
	const present = learnerById(account.id);
	if (!present) return noAccount;
	return present.password === account.password ? present : notYours;
}
