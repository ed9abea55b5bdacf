import { fail, redirect } from '@sveltejs/kit';
import { signIn } from '$lib/server/accounts';
import { formOf } from '$lib/server/forms/form-of';
import { textsOf } from '$lib/server/forms/texts-of';
import { wayBack } from '$lib/server/forms/way-back';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ locals, url }) => {
	if (locals.learner && !locals.learner.guest) redirect(303, '/account');
	return { hasWork: locals.learner !== null, to: wayBack(url.searchParams.get('to') ?? '/', url) };
};

export const actions: Actions = {
	default: async (event) => {
		const fields = textsOf(await formOf(event.request));
		const { outcome, ...refused } = await signIn(event, fields);
		if (outcome === 'done') redirect(303, wayBack(fields.to ?? '/', event.url));
		return fail(400, { ...refused, name: fields.name ?? '' });
	}
};
