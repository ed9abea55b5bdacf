import { fail, redirect } from '@sveltejs/kit';
import { learnerOrGuest } from '$lib/server/accounts';
import { fitShown } from '$lib/server/fit-shown';
import { formOf } from '$lib/server/form-of';
import { recallSetting, setRetention } from '$lib/server/recall-setting';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ locals, url }) => ({
	setting: recallSetting(locals.learner?.id ?? null),
	fit: locals.learner && fitShown(locals.learner.id),
	isKept: url.searchParams.has('kept')
});

export const actions: Actions = {
	default: async (event) => {
		const said = (await formOf(event.request)).get('retention');
		const learner = await learnerOrGuest(event);
		if (!setRetention(learner.id, said)) return fail(400, { problem: 'Choose one of those in the list.' });
		redirect(303, '/settings/recall?kept');
	}
};
