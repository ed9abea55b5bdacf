import { error, fail, redirect } from '@sveltejs/kit';
import { sessionIdOf } from '$lib/server/accounts';
import { statusOf } from '$lib/server/outcomes';
import { paperSheet } from '$lib/server/sittings/learners-papers';
import { beginPaper } from '$lib/server/sittings/sittings';
import type { Actions, PageServerLoad } from './$types';

const missing = 'There is no such paper here.';

export const load: PageServerLoad = ({ params, locals }) => {
	const paper = paperSheet(params.paper, locals.learner!);
	if (!paper) error(404, missing);
	return { paper };
};

export const actions: Actions = {
	begin: (event) => {
		const who = { learner: event.locals.learner!.id, seat: sessionIdOf(event)! };
		const begun = beginPaper(event.params.paper, who);
		if (begun.outcome === 'missing') error(404, missing);
		if (begun.outcome === 'refused') return fail(statusOf(begun), { says: begun.says });
		redirect(303, `/sitting/${begun.id}`);
	}
};
