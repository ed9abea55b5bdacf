import { fail, redirect } from '@sveltejs/kit';
import { cohorts } from '$lib/server/cohorts/cohorts';
import { formOf } from '$lib/server/forms/form-of';
import { textsOf } from '$lib/server/forms/texts-of';
import type { Actions } from './$types';

export const actions: Actions = {
	default: async (event) => {
		const { code = '' } = textsOf(await formOf(event.request));
		const found = cohorts().joining.invitation(event, event.locals.learner, code, Date.now());
		if (found.outcome === 'open') redirect(303, `/join/${found.code}`);
		if (found.outcome === 'joined') return { code, joined: found };
		return fail(found.outcome === 'limited' ? 429 : 400, { code, says: found.says });
	}
};
