import { fail, redirect } from '@sveltejs/kit';
import { cohorts } from '$lib/server/cohorts/cohorts';
import { formOf } from '$lib/server/forms/form-of';
import { textsOf } from '$lib/server/forms/texts-of';
import { statusOf } from '$lib/server/outcomes';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ locals }) => ({ cohorts: cohorts().list(locals.learner!.id) });

export const actions: Actions = {
	create: async ({ request, locals }) => {
		const fields = textsOf(await formOf(request));
		const made = cohorts().make(locals.learner!.id, fields, Date.now());
		if (made.outcome === 'refused') return fail(statusOf(made), { problems: made.problems, name: fields.name ?? '' });
		redirect(303, `/cohorts/${made.id}/register`);
	}
};
