/** Accounts with a session each, written into the data folder's database, for tests that meet the server by HTTP only. */
import { randomBytes } from 'node:crypto';
import type { Database } from '$lib/server/database/open.ts';
import { session, type Role } from '$lib/server/database/schema.ts';
import { digestOf } from '$lib/server/digest.ts';
import { addAccount } from './papers.ts';
import { Visitor } from './visitor.ts';

/** Signs a visitor's browser in as somebody, as a browser that was never here before. */
export function signIn(db: Database, visitor: Visitor, learnerId: string): Visitor {
	const secret = randomBytes(32).toString('base64url');
	const expiresAt = Math.floor(Date.now() / 1000) + 80 * 24 * 3600;
	db.insert(session)
		.values({ id: digestOf(secret), userId: learnerId, expiresAt })
		.run();
	visitor.cookies.clear();
	visitor.cookies.set('session', secret);
	return visitor;
}

export function addSignedIn(db: Database, address: string, name: string, role: Role = 'learner'): { id: string; visitor: Visitor } {
	const id = addAccount(db, name, role);
	return { id, visitor: signIn(db, new Visitor(address), id) };
}
