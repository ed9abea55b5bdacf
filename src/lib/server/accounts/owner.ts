/**
 * The first owner of a server: whoever opens the link that is printed where it was started.
 *
 * There is one link at most, and only while there is no owner. A new start makes a new one, and the one before it is void.
 */
import { randomBytes } from 'node:crypto';
import { eq } from 'drizzle-orm';
import { database } from '../database/open.ts';
import { learner, ownerLink } from '../database/schema.ts';
import { digestOf } from '../digest.ts';

/**
 * Makes the link of this start.
 * @returns its path on this server, which is kept nowhere; null where there is an owner
 */
export function freshOwnerLink(now = Date.now()): string | null {
	const secret = randomBytes(32).toString('base64url');
	return database().transaction(
		(inside) => {
			inside.delete(ownerLink).run();
			if (hasOwner()) return null;
			inside
				.insert(ownerLink)
				.values({ secret: digestOf(secret), created: new Date(now) })
				.run();
			return `/owner/${secret}`;
		},
		{ behavior: 'immediate' }
	);
}

/** Whether the link would make an owner now. Looking at it does not spend it. */
export function ownerLinkStands(secret: string): boolean {
	const kept = database()
		.select()
		.from(ownerLink)
		.where(eq(ownerLink.secret, digestOf(secret)))
		.get();
	return kept !== undefined && !hasOwner();
}

/** Spends the link. To be called in the same transaction as what it is spent on. @returns whether it stood */
export function spendOwnerLink(secret: string): boolean {
	if (!ownerLinkStands(secret)) return false;
	database().delete(ownerLink).run();
	return true;
}

/** Makes an account that is signed in the owner. @returns whether the link stood */
export function raiseToOwner(learnerId: string, secret: string): boolean {
	return database().transaction(
		(inside) => {
			if (!spendOwnerLink(secret)) return false;
			inside.update(learner).set({ role: 'owner' }).where(eq(learner.id, learnerId)).run();
			return true;
		},
		{ behavior: 'immediate' }
	);
}

function hasOwner(): boolean {
	return database().select({ id: learner.id }).from(learner).where(eq(learner.role, 'owner')).get() !== undefined;
}
