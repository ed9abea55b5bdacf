import { redirect } from '@sveltejs/kit';
import { learnerOrGuest } from '$lib/server/accounts';
import { formOf } from '$lib/server/forms/form-of';
import { hideAddress, newAddressOf, showAddress } from '$lib/server/practice/new-address';
import { endReminders, hasReminders, newReminders } from '$lib/server/practice/reminders';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ locals, cookies, url }) => ({
	has: locals.learner !== null && hasReminders(locals.learner.id),
	address: locals.learner && newAddressOf(cookies, url, locals.learner.id)
});

export const actions: Actions = {
	/** The address is shown on the page that follows, for some minutes and never again: loading that anew makes no other one. */
	make: async (event) => {
		await formOf(event.request);
		const learner = await learnerOrGuest(event);
		showAddress(event.cookies, event.url, newReminders(learner.id));
		redirect(303, '/settings/reminders');
	},
	end: ({ locals, cookies, url }) => {
		if (locals.learner) endReminders(locals.learner.id);
		hideAddress(cookies, url);
		redirect(303, '/settings/reminders');
	}
};
