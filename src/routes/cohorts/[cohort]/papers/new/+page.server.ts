import { error, fail, redirect } from '@sveltejs/kit';
import { formOf } from '$lib/server/forms/form-of';
import { textsOf } from '$lib/server/forms/texts-of';
import { statusOf } from '$lib/server/outcomes';
import { papers } from '$lib/server/papers/papers';
import type { Actions, PageServerLoad } from './$types';

const missing = 'There is no such cohort among yours.';

export const load: PageServerLoad = ({ params: { cohort }, locals }) => {
	const { id: assessor, zone } = locals.learner!;
	const blank = papers().blank({ assessor, cohort }, zone, Date.now());
	if (!blank) error(404, missing);
	return { ...blank, zone };
};

export const actions: Actions = {
	default: async ({ params: { cohort }, locals, request }) => {
		const fields = textsOf(await formOf(request));
		const { id: assessor, zone } = locals.learner!;
		const made = papers().make({ assessor, cohort }, { fields, zone }, Date.now());
		if (made.outcome === 'missing') error(404, missing);
		if (made.outcome === 'refused') return fail(statusOf(made), { says: made.says, problems: {}, fields });
		if (made.outcome === 'unfit') return fail(400, { says: null, problems: made.problems, fields });
		redirect(303, `/cohorts/${cohort}/papers/${made.id}`);
	}
};
