import { error, fail } from '@sveltejs/kit';
import { statusOf } from '$lib/server/outcomes';
import { sheets } from '$lib/server/sheets/sheets';
import type { Actions, PageServerLoad } from './$types';

const missing = 'There is no such paper among those of your cohorts.';

export const load: PageServerLoad = ({ params, locals }) => {
	const page = sheets().list(locals.learner!.id, params);
	if (!page) error(404, missing);
	return { page, zone: locals.learner!.zone, here: `/cohorts/${params.cohort}/papers/${params.paper}` };
};

export const actions: Actions = {
	lock: ({ params, locals }) => {
		const locked = sheets().lockAll(locals.learner!.id, params);
		if (locked.outcome === 'missing') error(404, missing);
		if (locked.outcome === 'refused') return fail(statusOf(locked), { says: locked.says });
		return { locked };
	}
};
