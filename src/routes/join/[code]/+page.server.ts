import { error, fail, redirect } from '@sveltejs/kit';
import { cohorts } from '$lib/server/cohorts/cohorts';
import { formOf } from '$lib/server/forms/form-of';
import { textsOf } from '$lib/server/forms/texts-of';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = (event) => {
	const { learner } = event.locals;
	const invitation = cohorts().joining.invitation(event, learner, event.params.code, Date.now());
	if (invitation.outcome === 'unknown') error(404, invitation.says);
	if (invitation.outcome === 'limited') error(429, invitation.says);
	return { invitation, who: learner === null ? ('visitor' as const) : learner.guest ? ('guest' as const) : ('account' as const) };
};

export const actions: Actions = {
	default: async (event) => {
		const { as = null } = textsOf(await formOf(event.request));
		const joined = cohorts().joining.join(event, event.locals.learner!, event.params.code, Date.now(), as);
		if (joined.outcome === 'joined') redirect(303, event.url.pathname);
		return fail(joined.outcome === 'limited' ? 429 : 400, { says: joined.says });
	}
};
