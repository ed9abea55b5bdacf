/** Who is at the browser. The session library is known to this file only. */
import { randomUUID } from 'node:crypto';
import { DrizzleSQLiteAdapter } from '@lucia-auth/adapter-drizzle';
import { Lucia, TimeSpan } from 'lucia';
import { database, type Database } from './database/open.ts';
import { learner, session } from './database/schema.ts';

export interface Learner {
	readonly id: string;
	readonly guest: boolean;
	readonly invented: boolean;
}

/** What the cookie functions need of a request; Kit's own event fits. */
interface Visit {
	readonly url: URL;
	readonly locals: { learner: Learner | null };
	readonly cookies: {
		get(name: string): string | undefined;
		set(name: string, value: string, options: CookieOptions): void;
		delete(name: string, options: CookieOptions): void;
	};
}
interface CookieOptions {
	path: string;
	httpOnly?: boolean;
	sameSite?: 'lax';
	secure?: boolean;
	expires?: Date;
}

const cookieName = 'session';

declare module 'lucia' {
	interface Register {
		Lucia: ReturnType<typeof makeLucia>;
		DatabaseUserAttributes: { guest: boolean; invented: boolean; created: Date };
	}
}

function makeLucia(db: Database) {
	return new Lucia(new DrizzleSQLiteAdapter(db, session, learner), {
		sessionExpiresIn: new TimeSpan(90, 'd'),
		sessionCookie: { name: cookieName },
		getUserAttributes: ({ guest, invented }) => ({ guest, invented })
	});
}

let made: { db: Database; lucia: ReturnType<typeof makeLucia> } | undefined;
function lucia() {
	const db = database();
	if (made?.db !== db) made = { db, lucia: makeLucia(db) };
	return made.lucia;
}

/** Kept out of reach of scripts and of other sites; sent over https only, where the visit is by https. */
function cookieOptions(url: URL): CookieOptions {
	return { path: '/', httpOnly: true, sameSite: 'lax', secure: url.protocol === 'https:' };
}

/** The learner whose session this visit carries, or null. Extends a session that is half spent and forgets one that is over. */
export async function recogniseLearner(visit: Visit): Promise<Learner | null> {
	const id = visit.cookies.get(cookieName);
	if (!id) return null;
	const found = await lucia().validateSession(id);
	if (!found.session) visit.cookies.delete(cookieName, cookieOptions(visit.url));
	else if (found.session.fresh) visit.cookies.set(cookieName, id, { ...cookieOptions(visit.url), expires: found.session.expiresAt });
	return found.user;
}

/** The learner of this visit; a browser that has none becomes a new guest. */
export async function learnerOrGuest(visit: Visit): Promise<Learner> {
	if (visit.locals.learner) return visit.locals.learner;
	const guest = addLearner({ guest: true, invented: false });
	const begun = await lucia().createSession(guest.id, {});
	visit.cookies.set(cookieName, begun.id, { ...cookieOptions(visit.url), expires: begun.expiresAt });
	visit.locals.learner = guest;
	return guest;
}

/** Adds a learner without a session. */
export function addLearner(kind: { guest: boolean; invented: boolean }, db: Database = database()): Learner {
	const added = { id: randomUUID(), ...kind };
	db.insert(learner)
		.values({ ...added, created: new Date() })
		.run();
	return added;
}
