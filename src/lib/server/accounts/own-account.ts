/** What learners may do with their own account: see it, change the password, delete it. */
import { and, eq } from 'drizzle-orm';
import { z } from 'zod';
import { onlyKeeper } from '../cohorts/keepers.ts';
import { database } from '../database/open.ts';
import { learner, type LearnerRow, type Role } from '../database/schema.ts';
import { readFields } from '../forms/read-form.ts';
import { conflict, done, refused, type Done, type RefusedForm } from '../outcomes.ts';
import { addressOf } from './address.ts';
import { emptyAccount, hasSat } from './emptying.ts';
import { learnerById } from './learners.ts';
import { countTry, forgetTries } from './limits.ts';
import { notWhileSitting } from './not-while-sitting.ts';
import { givenPassword, hashPassword, isPassword, newPassword } from './passwords.ts';
import { beginSession, endAllSessions, endSession } from './sessions.ts';
import type { AddressedVisit } from './sign-in.ts';

/** As the account's own page shows it. */
export interface OwnAccount {
	readonly name: string;
	readonly email: string | null;
	readonly role: Role;
	readonly created: Date;
	/** Whether papers were sat with it, which stay when it is deleted. */
	readonly hasSat: boolean;
}

/** @returns null for a guest, who has none */
export function ownAccount(learnerId: string): OwnAccount | null {
	const row = learnerById(learnerId);
	if (!row || row.name === null) return null;
	const { name, email, role, created } = row;
	return { name, email, role, created, hasSat: hasSat(database(), learnerId) };
}

const passwordForm = z.object({ password: givenPassword, newPassword });

/** Changes the password. Every other browser is signed out. @param fields  `password` and `newPassword`, unchecked */
export async function changePassword(visit: AddressedVisit, fields: unknown, now = Date.now()): Promise<Done | RefusedForm> {
	const { data, problems } = readFields(passwordForm, fields);
	if (problems) return { outcome: 'refused', problems };
	const account = await confirmed(visit, data.password, now);
	if ('outcome' in account) return account;
	const password = await hashPassword(data.newPassword);
	return database().transaction(
		(inside): Done | RefusedForm => {
			const present = stillSo(account);
			if ('outcome' in present) return present;
			inside.update(learner).set({ password }).where(eq(learner.id, account.id)).run();
			endAllSessions(account.id);
			beginSession(visit, present);
			return done;
		},
		{ behavior: 'immediate' }
	);
}

const sure = z.literal('yes', 'Tick this to say that you are sure.');
const deletionForm = z.object({ password: givenPassword, sure });
const guestDeletionForm = z.object({ sure });

/**
 * Deletes the account and all that it did; where papers were sat with it, all but those. It cannot be undone. Not while it would buy another
 * attempt at a paper, nor while nobody else keeps a cohort.
 * @param fields  `password` and `sure`, unchecked
 */
export async function deleteAccount(visit: AddressedVisit, fields: unknown, now = Date.now()): Promise<Done | RefusedForm> {
	const { data, problems } = readFields(deletionForm, fields);
	if (problems) return { outcome: 'refused', problems };
	const account = await confirmed(visit, data.password, now);
	if ('outcome' in account) return account;
	const says = database().transaction(
		() => {
			const barred = notWhileSitting(database(), account.id, now) ?? onlyKeeper(database(), account.id, { is: 'You are', they: 'you add' });
			if (barred !== null) return barred;
			if (hasSat(database(), account.id)) emptyAccount(database(), account.id, now);
			else database().delete(learner).where(eq(learner.id, account.id)).run();
			return null;
		},
		{ behavior: 'immediate' }
	);
	if (says !== null) return conflict(says);
	forgetTries({ nameKey: account.nameKey!, learnerId: account.id });
	endSession(visit);
	return done;
}

/** The same of what was kept for a guest, who has no password to be asked for. @param fields  `sure`, unchecked */
export async function deleteGuest(visit: AddressedVisit, fields: unknown): Promise<Done | RefusedForm> {
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
	return done;
}

const noAccount: RefusedForm = { outcome: 'refused', says: 'You are not signed in to an account.' };
const notYours: RefusedForm = { outcome: 'refused', problems: { password: 'This is not your password.' } };

/** The account of this visit, once its password has been given again; tries are limited as those of signing in are, and counted apart. */
async function confirmed(visit: AddressedVisit, password: string, now: number): Promise<LearnerRow | RefusedForm> {
	const account = visit.locals.learner ? learnerById(visit.locals.learner.id) : undefined;
	if (!account || account.nameKey === null) return noAccount;
	const tried = countTry({ learnerId: account.id, address: addressOf(visit) }, now);
	if (tried.says !== undefined) return refused(tried.says);
	if (!(await isPassword(account.password, password))) return notYours;
	const present = stillSo(account);
	if (!('outcome' in present)) tried.forgive();
	return present;
}

/** The account as it stands, unless it is gone or its password has become another since it was read. */
function stillSo(account: LearnerRow): LearnerRow | RefusedForm {
	const present = learnerById(account.id);
	if (!present) return noAccount;
	return present.password === account.password ? present : notYours;
}
