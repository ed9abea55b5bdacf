/**
 * Who is at the browser. The session library is known to this file only.
 *
 * The cookie holds a secret; the database holds its digest, so that a copy of the database file opens nobody's session.
 */
import { randomBytes } from 'node:crypto';
import { DrizzleSQLiteAdapter } from '@lucia-auth/adapter-drizzle';
import { and, eq, notExists } from 'drizzle-orm';
import { Lucia, TimeSpan } from 'lucia';
import { database, type Database } from '../database/open.ts';
import { learner, session } from '../database/schema.ts';
import { digestOf } from '../digest.ts';
import { zoneOf } from '../zones.ts';
import { addLearner, learnerOf, type Learner } from './learners.ts';

/** What the cookie functions need of a request; Kit's own event fits. */
export interface Visit {
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
const lasts = new TimeSpan(90, 'd');

declare module 'lucia' {
	interface Register {
		Lucia: ReturnType<typeof makeLucia>;
		DatabaseUserAttributes: Omit<Learner, 'id'>;
	}
}

function makeLucia(db: Database) {
	return new Lucia(new DrizzleSQLiteAdapter(db, session, learner), {
		sessionExpiresIn: lasts,
		sessionCookie: { name: cookieName },
		getUserAttributes: ({ guest, invented, role, name, zone }) => ({ guest, invented, role, name, zone })
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
	const secret = visit.cookies.get(cookieName);
	if (!secret) return null;
	const found = await lucia().validateSession(digestOf(secret));
	if (!found.session) visit.cookies.delete(cookieName, cookieOptions(visit.url));
	else if (found.session.fresh) visit.cookies.set(cookieName, secret, { ...cookieOptions(visit.url), expires: found.session.expiresAt });
	return found.user;
}

/** By which the session that a browser carries is known here; null where it carries none. Of no use to whoever would open the session. */
export function sessionIdOf({ cookies }: { readonly cookies: Pick<Visit['cookies'], 'get'> }): string | null {
	const secret = cookies.get(cookieName);
	return secret ? digestOf(secret) : null;
}

/**
 * The learner of this visit; a browser that has none becomes a new guest.
 * @param zone  the time zone that the browser says it is in, unchecked
 */
export async function learnerOrGuest(visit: Visit, zone?: unknown): Promise<Learner> {
	if (visit.locals.learner) return visit.locals.learner;
	return database().transaction(
		() => {
			const guest = addLearner({ guest: true, invented: false, zone: zoneOf(zone) ?? undefined });
			beginSession(visit, guest);
			return guest;
		},
		{ behavior: 'immediate' }
	);
}

/**
 * Makes this browser the learner's from now on, with a session that nobody has seen before; the one that it carried is over, so that a
 * session planted in a browser is of no use to who planted it. Nothing comes between: to be called in the same transaction as the look at
 * what entitles to it.
 */
export function beginSession(visit: Visit, whose: Learner): void {
	endThisSession(visit);
	const secret = randomBytes(32).toString('base64url');
	const expires = new Date(Date.now() + lasts.milliseconds());
	database()
		.insert(session)
		.values({ id: digestOf(secret), userId: whose.id, expiresAt: Math.floor(expires.getTime() / 1000) })
		.run();
	visit.cookies.set(cookieName, secret, { ...cookieOptions(visit.url), expires });
	visit.locals.learner = learnerOf(whose);
}

/** Signs this browser out. */
export function endSession(visit: Visit): void {
	endThisSession(visit);
	visit.cookies.delete(cookieName, cookieOptions(visit.url));
	visit.locals.learner = null;
}

function endThisSession({ cookies }: Visit): void {
	const secret = cookies.get(cookieName);
	if (secret)
		database()
			.delete(session)
			.where(eq(session.id, digestOf(secret)))
			.run();
}

/** Signs the learner out in every browser. */
export function endAllSessions(learnerId: string): void {
	database().delete(session).where(eq(session.userId, learnerId)).run();
}

/** Drops the rows of sessions that are over, and the guests whom nobody can be any more, with all that they hold. */
export async function forgetOldSessions(): Promise<void> {
	await lucia().deleteExpiredSessions();
	const db = database();
	const ofGuest = db.select({ id: session.id }).from(session).where(eq(session.userId, learner.id));
	db.delete(learner)
		.where(and(eq(learner.guest, true), eq(learner.invented, false), notExists(ofGuest)))
		.run();
}
