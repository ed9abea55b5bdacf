import { error } from '@sveltejs/kit';
import { statistics } from '$lib/server/statistics/statistics-page';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params, locals }) => {
	const page = statistics({ assessor: locals.learner!.id, ...params });
	if (!page) error(404, 'There is no such paper among those of your cohorts that are set.');
	return { page, here: `/cohorts/${params.cohort}/papers/${params.paper}` };
};
