import { error } from '@sveltejs/kit';
import { cohorts } from '$lib/server/cohorts/cohorts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params, locals, url }) => {
	const page = cohorts().invitations(locals.learner!.id, params.cohort, url.origin);
	if (!page) error(404, 'There is no such cohort here.');
	return page;
};
