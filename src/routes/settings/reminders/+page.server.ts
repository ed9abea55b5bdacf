import { learnerOrGuest } from '$lib/server/accounts';
import { endReminders, hasReminders, newReminders } from '$lib/server/reminders';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ locals }) => ({ has: locals.learner !== null && hasReminders(locals.learner.id) });

export const actions: Actions = {
	/** The address is shown in the answer to this, and never again. */
	make: async (event) => {
		const learner = await learnerOrGuest(event);
		return { address: `${event.url.origin}/calendar/${newReminders(learner.id)}.ics` };
	},
	end: ({ locals }) => {
		if (locals.learner) endReminders(locals.learner.id);
		return { address: null };
	}
};
