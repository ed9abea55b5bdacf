/**
 * Signing up.
 *
 * Names are handles that others in a cohort see, and one account has one name; so a name that is taken must be refused, and the refusal
 * tells that it is. What can be done is done: each such refusal counts as a failed try of its address, so that nobody reads off a list of
 * names faster than they could try passwords. The e-mail address is compared with nobody's and tells nothing.
 */
import { randomUUID } from 'node:crypto';
import { and, eq } from 'drizzle-orm';
import { z } from 'zod';
import { defaultZone } from '#shared/review/memory/memory.ts';
import { database } from '../database/open.ts';
import { learner } from '../database/schema.ts';
import { readFields } from '../forms/read-form.ts';
import { done, refused, type Done, type RefusedForm } from '../outcomes.ts';
import { addressOf } from './address.ts';
import { zoneOf } from '../zones.ts';
import { accountNamed, learnerById } from './learners.ts';
import { countTry } from './limits.ts';
import { accountName, nameKeyOf, optionalEmail } from './names.ts';
import { spendOwnerLink } from './owner.ts';
import { hashPassword, newPassword } from './passwords.ts';
import { beginSession, endAllSessions } from './sessions.ts';
import type { AddressedVisit } from './sign-in.ts';

const signUpForm = z.object({ name: accountName, password: newPassword, email: optionalEmail, zone: z.unknown().optional() });
type SignUp = z.output<typeof signUpForm>;

const taken: RefusedForm = { outcome: 'refused', problems: { name: 'This name is taken. Choose another.' } };
const linkSpent: RefusedForm = { outcome: 'refused', says: 'This link has been used, or the server has printed another since.' };

/**
 * Makes an account and signs this browser in. A guest becomes the account and keeps everything; whatever sessions the guest had are over.
 * @param fields       `name`, `password`, and perhaps `email` and the browser's `zone`, unchecked
 * @param ownerSecret  of the link by which the first owner signs up; spent with it
 * @param now          [ms since 1970]
 */
export async function signUp(visit: AddressedVisit, fields: unknown, ownerSecret?: string, now = Date.now()): Promise<Done | RefusedForm> {
	const before = visit.locals.learner;
	if (before && !before.guest) return refused('You are signed in already. Sign out first.');
	const { data, problems } = readFields(signUpForm, fields);
	if (problems) return { outcome: 'refused', problems };
	const tried = countTry({ address: addressOf(visit) }, now);
	if (tried.says !== undefined) return refused(tried.says);
	if (accountNamed(nameKeyOf(data.name))) return taken;
	const password = await hashPassword(data.password);
	const stored = store(before?.id ?? null, data, password, ownerSecret, now);
	if (typeof stored !== 'string') return stored;
	tried.forgive();
	endAllSessions(stored);
	beginSession(visit, learnerById(stored)!);
	return done;
}

/** @returns the id of the account, in one step with the spending of the link */
function store(guestId: string | null, { name, email, zone: said }: SignUp, password: string, secret: string | undefined, now: number) {
	const account = { guest: false, name, nameKey: nameKeyOf(name), email, password };
	const role = secret === undefined ? 'learner' : 'owner';
	try {
		return database().transaction(
			(inside): string | RefusedForm => {
				if (secret !== undefined && !spendOwnerLink(secret)) return linkSpent;
				const guest = guestId === null ? undefined : learnerById(guestId);
				// What the browser says does not undo what was chosen by hand.
				const zone = (guest && guest.zone !== defaultZone ? guest.zone : zoneOf(said)) ?? defaultZone;
				const id = guestId ?? randomUUID();
				if (guestId === null) {
					inside
						.insert(learner)
						.values({ ...account, id, role, zone, created: new Date(now) })
						.run();
					return id;
				}
				const isGuest = and(eq(learner.id, id), eq(learner.guest, true));
				const { changes } = inside
					.update(learner)
					.set({ ...account, role, zone })
					.where(isGuest)
					.run();
				// The same form sent twice: the first made the account.
				return changes === 1 ? id : taken;
			},
			{ behavior: 'immediate' }
		);
	} catch (error) {
		// Another was first to take the name, while the password was being hashed.
		if (codeOf(error) === 'SQLITE_CONSTRAINT_UNIQUE') return taken;
		throw error;
	}
}

function codeOf(error: unknown): unknown {
	const { code, cause } = error as { code?: unknown; cause?: { code?: unknown } };
	return code ?? cause?.code;
}
