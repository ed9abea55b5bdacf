import type { Cookies } from '@sveltejs/kit';
import { yearS } from '$lib/ui/settings';

/** Keeps a reader's choice in this browser. Readable by the page, which may change it too; it says nothing about who they are. */
export function keep(cookies: Cookies, url: URL, name: string, value: string): void {
	cookies.set(name, value, { path: '/', maxAge: yearS, httpOnly: false, sameSite: 'lax', secure: url.protocol === 'https:' });
}
