/** Signing in and out. */
import { z } from 'zod';
import { database } from '../database/open.ts';
import { readFields } from '../forms/read-form.ts';
import { done, refused, type Done, type RefusedForm } from '../outcomes.ts';
import { addressOf } from './address.ts';
import { moveGuestWork } from './guest-work.ts';
import { accountNamed, learnerById } from './learners.ts';
import { countTry } from './limits.ts';
import { nameKeyOf } from './names.ts';
import { givenPassword, isPassword } from './passwords.ts';
import { beginSession, type Visit } from './sessions.ts';

/** A visit of which the address is known. */
export interface AddressedVisit extends Visit {
	getClientAddress(): string;
}

const signInForm = z.object({
	name: z.string('Write your name.').min(1, 'Write your name.').max(1000, 'No name is that long.'),
	password: givenPassword
});

const notTogether: RefusedForm = { outcome: 'refused', says: 'That name and that password do not belong together.' };

/**
 * Signs this browser in. A guest's work goes along.
 *
 * A name that nobody bears is answered as a wrong password is: in the same words, after the same work, under the same limits. So is a
 * password that was changed, and an account that was deleted, while the password was being looked at.
 * @param fields  `name` and `password`, unchecked
 * @param now     [ms since 1970]
 */
export async function signIn(visit: AddressedVisit, fields: unknown, now = Date.now()): Promise<Done | RefusedForm> {
	const { data, problems } = readFields(signInForm, fields);
	if (problems) return { outcome: 'refused', problems };
	const nameKey = nameKeyOf(data.name);
	const tried = countTry({ nameKey, address: addressOf(visit) }, now);
	if (tried.says !== undefined) return refused(tried.says);
	const account = accountNamed(nameKey);
	const isRight = await isPassword(account?.password ?? null, data.password);
	if (!account || !isRight) return notTogether;
	return database().transaction(
		(): Done | RefusedForm => {
			const present = learnerById(account.id);
			if (present?.password !== account.password) return notTogether;
			tried.forgive();
			const before = visit.locals.learner;
			if (before?.guest && before.id !== account.id) moveGuestWork(before.id, account.id, now);
			beginSession(visit, present);
			return done;
		},
		{ behavior: 'immediate' }
	);
}
