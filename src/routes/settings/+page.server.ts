import { redirect } from '@sveltejs/kit';
import { formOf } from '$lib/server/form-of';
import { keep } from '$lib/server/keep-choice';
import { cookieNames } from '$lib/ui/settings';
import { themeOf } from '$lib/ui/theme';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ url, cookies }) => ({
	isKept: url.searchParams.has('kept'),
	isToured: cookies.get(cookieNames.toured) !== undefined
});

export const actions: Actions = {
	keep: async ({ request, cookies, url }) => {
		const form = await formOf(request);
		keep(cookies, url, cookieNames.theme, themeOf(form.get('theme')));
		for (const name of ['contrast', 'ownSettings', 'bands'] as const) keep(cookies, url, cookieNames[name], form.has(name) ? '1' : '0');
		if (form.has('tour')) cookies.delete(cookieNames.toured, { path: '/' });
		redirect(303, '/settings?kept');
	}
};
