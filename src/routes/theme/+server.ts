import { redirect } from '@sveltejs/kit';
import { formOf } from '$lib/server/forms/form-of';
import { keep } from '$lib/server/forms/keep-choice';
import { wayBack } from '$lib/server/forms/way-back';
import { cookieNames } from '$lib/ui/settings';
import { themeOf } from '$lib/ui/theme';
import type { RequestHandler } from './$types';

/** Keeps the choice of theme and goes back to the page it was made on. */
export const POST: RequestHandler = async ({ request, cookies, url }) => {
	const form = await formOf(request);
	keep(cookies, url, cookieNames.theme, themeOf(form.get('theme')));
	redirect(303, wayBack(String(form.get('from') ?? '/'), url));
};
