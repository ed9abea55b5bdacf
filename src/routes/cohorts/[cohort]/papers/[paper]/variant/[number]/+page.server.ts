import { error } from '@sveltejs/kit';
import { papers } from '$lib/server/papers/papers';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params: { cohort, paper, number }, locals }) => {
	const at = { assessor: locals.learner!.id, cohort, paper };
	const page = /^\d{1,2}$/.test(number) ? await papers().variant(at, Number(number)) : null;
	if (!page) error(404, 'There is no such variant among the papers of your cohorts.');
	return { ...page, here: `/cohorts/${cohort}/papers/${paper}` };
};
