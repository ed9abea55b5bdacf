import { fail, redirect } from '@sveltejs/kit';
import { signUp } from '$lib/server/accounts';
import { formOf } from '$lib/server/forms/form-of';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ locals }) => {
	if (locals.learner && !locals.learner.guest) redirect(303, '/account');
	return { hasWork: locals.learner !== null };
};

export const actions: Actions = {
	default: async (event) => {
		const fields = Object.fromEntries(await formOf(event.request));
		const { outcome, ...refused } = await signUp(event, fields);
		if (outcome === 'done') redirect(303, '/account?welcome');
		return fail(400, { ...refused, name: String(fields.name ?? ''), email: String(fields.email ?? '') });
	}
};
