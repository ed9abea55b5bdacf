import { fail, redirect } from '@sveltejs/kit';
import { formOf } from '$lib/server/forms/form-of';
import { keep } from '$lib/server/forms/keep-choice';
import { setZone, zones } from '$lib/server/zones';
import { cookieNames } from '$lib/ui/settings';
import { themeOf } from '$lib/ui/theme';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ url, cookies, locals }) => ({
	isKept: url.searchParams.has('kept'),
	/** Where the learner's days turn, and what may be chosen; null for a visitor who is no learner yet. */
	zone: locals.learner && { own: locals.learner.zone, all: [...new Set([...zones, locals.learner.zone])] },
	isToured: cookies.get(cookieNames.toured) !== undefined
});

export const actions: Actions = {
	keep: async ({ request, cookies, url }) => {
		const form = await formOf(request);
		keep(cookies, url, cookieNames.theme, themeOf(form.get('theme')));
		for (const name of ['contrast', 'ownSettings', 'bands', 'coaching'] as const)
			keep(cookies, url, cookieNames[name], form.has(name) ? '1' : '0');
		if (form.has('tour')) cookies.delete(cookieNames.toured, { path: '/' });
		redirect(303, '/settings?kept');
	},

	zone: async ({ request, locals }) => {
		const said = (await formOf(request)).get('zone');
		if (!locals.learner || !setZone(locals.learner.id, said)) return fail(400, { zoneProblem: 'Choose one of the zones in the list.' });
		redirect(303, '/settings?kept');
	}
};
