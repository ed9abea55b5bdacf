/**
 * The address of a calendar just made, kept for its owner's browser alone and for a few minutes: the page that shows it can be loaded again,
 * and nothing of it is kept on the server.
 */
import type { Cookies } from '@sveltejs/kit';
import { isOwnSecret } from './reminders.ts';

const name = 'provewell-new-address';
const path = '/settings/reminders';
/** How long it is shown [s]. */
const shownS = 600;

export function showAddress(cookies: Cookies, url: URL, secret: string): void {
	cookies.set(name, secret, { path, maxAge: shownS, httpOnly: true, sameSite: 'lax', secure: url.protocol === 'https:' });
}

export function hideAddress(cookies: Cookies, url: URL): void {
	cookies.delete(name, { path, secure: url.protocol === 'https:' });
}

/** @returns the address, where this learner's was made a few minutes ago in this browser and still holds; else null */
export function newAddressOf(cookies: Cookies, url: URL, learnerId: string): string | null {
	const secret = cookies.get(name);
	return secret && isOwnSecret(learnerId, secret) ? `${url.origin}/calendar/${secret}.ics` : null;
}
