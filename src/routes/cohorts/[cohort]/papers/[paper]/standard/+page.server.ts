import { error, fail, redirect } from '@sveltejs/kit';
import { formOf } from '$lib/server/forms/form-of';
import { textsOf } from '$lib/server/forms/texts-of';
import { statusOf } from '$lib/server/outcomes';
import { papers } from '$lib/server/papers/papers';
import { readJudges } from './read-judges';
import type { Actions, PageServerLoad } from './$types';

const missing = 'There is no such paper among those of your cohorts.';

export const load: PageServerLoad = ({ params: { cohort, paper }, locals, url }) => {
	const page = papers().standard.page({ assessor: locals.learner!.id, cohort, paper });
	if (!page) error(404, missing);
	const { zone } = locals.learner!;
	return { ...page, zone, here: `/cohorts/${cohort}/papers/${paper}`, isKept: url.searchParams.has('kept') };
};

export const actions: Actions = {
	keep: async ({ params: { cohort, paper }, locals, request, url }) => {
		const fields = textsOf(await formOf(request));
		const at = { assessor: locals.learner!.id, cohort, paper };
		const judges = readJudges(fields, papers().standard.page(at)?.slots.length ?? 0);
		const kept = papers().standard.keepEstimates(at, judges, Date.now());
		if (kept.outcome === 'missing') error(404, missing);
		if (kept.outcome === 'refused') return fail(statusOf(kept), { of: 'keep' as const, says: kept.says, judges, reason: '' });
		redirect(303, `${url.pathname}?kept`);
	},
	take: async ({ params: { cohort, paper }, locals, request, url }) => {
		const { reason = '' } = textsOf(await formOf(request));
		const taken = papers().standard.takeCut({ assessor: locals.learner!.id, cohort, paper }, { reason }, Date.now());
		if (taken.outcome === 'missing') error(404, missing);
		if (taken.outcome === 'refused') return fail(statusOf(taken), { of: 'take' as const, says: taken.says, judges: null, reason });
		redirect(303, `${url.pathname}?kept`);
	}
};
