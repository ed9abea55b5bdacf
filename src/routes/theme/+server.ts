import { redirect } from '@sveltejs/kit';
import { themeOf } from '$lib/ui/theme';
import type { RequestHandler } from './$types';

const yearS = 365 * 24 * 3600;

/** Keeps the choice of theme and goes back to the page it was made on. */
export const POST: RequestHandler = async ({ request, cookies, url }) => {
	const form = await request.formData();
	cookies.set('theme', themeOf(form.get('theme')), {
		path: '/',
		maxAge: yearS,
		httpOnly: true,
		sameSite: 'lax',
		secure: url.protocol === 'https:'
	});
	const from = String(form.get('from') ?? '/');
	// Only a path of this site: an address in the form must not lead elsewhere.
	redirect(303, /^\/(?![/\\])/.test(from) ? from : '/');
};
