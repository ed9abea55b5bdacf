import { fail, redirect } from '@sveltejs/kit';
import { learnerOrGuest } from '$lib/server/accounts';
import { fitShown } from '$lib/server/fitting/fit-shown';
import { formOf } from '$lib/server/forms/form-of';
import { recallSetting, retentionOf, setRetention } from '$lib/server/practice/recall-setting';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ locals, url }) => ({
	setting: recallSetting(locals.learner?.id ?? null),
	fit: locals.learner && fitShown(locals.learner.id),
	isKept: url.searchParams.has('kept')
});

export const actions: Actions = {
	default: async (event) => {
		const retention = retentionOf((await formOf(event.request)).get('retention'));
		if (retention === null) return fail(400, { problem: 'Choose one of those in the list.' });
		const learner = await learnerOrGuest(event);
		setRetention(learner.id, retention);
		redirect(303, '/settings/recall?kept');
	}
};
