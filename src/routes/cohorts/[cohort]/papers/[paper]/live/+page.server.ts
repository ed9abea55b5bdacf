import { error, fail, redirect } from '@sveltejs/kit';
import { formOf } from '$lib/server/forms/form-of';
import { textsOf } from '$lib/server/forms/texts-of';
import { liveViews } from '$lib/server/live/live';
import { statusOf } from '$lib/server/outcomes';
import type { Actions, PageServerLoad } from './$types';

const missing = 'There is no such paper among those of your cohorts.';

export const load: PageServerLoad = ({ params: { cohort, paper }, locals, url }) => {
	const page = liveViews().page(locals.learner!.id, cohort, paper);
	if (!page) error(404, missing);
	return { ...page, here: `/cohorts/${cohort}/papers/${paper}`, forRoom: url.searchParams.has('room') };
};

export const actions: Actions = {
	close: async ({ params: { cohort, paper }, locals, request }) => {
		const { sitting = '', reason = '' } = textsOf(await formOf(request));
		const closed = liveViews().close(locals.learner!.id, cohort, paper, { sitting, reason });
		if (closed.outcome === 'missing') error(404, missing);
		if (closed.outcome === 'refused') return fail(statusOf(closed), { says: closed.says, sitting, reason });
		redirect(303, `/cohorts/${cohort}/papers/${paper}/live`);
	}
};
