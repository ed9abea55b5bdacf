import { error, redirect } from '@sveltejs/kit';
import { areas } from '#shared/scenario/areas.ts';
import { cohorts } from '$lib/server/cohorts/cohorts';
import { formOf } from '$lib/server/forms/form-of';
import { textsOf } from '$lib/server/forms/texts-of';
import type { Actions, PageServerLoad } from './$types';

const noSuchCohort = 'There is no such cohort here.';

export const load: PageServerLoad = ({ params, locals }) => {
	const page = cohorts().page(locals.learner!.id, params.cohort, Date.now());
	if (!page) error(404, noSuchCohort);
	return { ...page, areas, zone: locals.learner!.zone };
};

export const actions: Actions = {
	project: async ({ request, params, locals }) => {
		const { family = '', area = '' } = textsOf(await formOf(request));
		const projected = cohorts().project(locals.learner!.id, params.cohort, { family, area }, Date.now());
		if (projected.outcome === 'missing') error(404, 'There is no such fault to show here.');
		redirect(303, `/callout/${projected.attemptId}`);
	}
};
