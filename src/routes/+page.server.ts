import { error, redirect } from '@sveltejs/kit';
import { learnerOrGuest } from '$lib/server/accounts';
import { startCallout } from '$lib/server/callouts';
import { runningCallout } from '$lib/server/own-callouts';
import { familiesInStock, familyPage } from '$lib/server/families';
import { formOf } from '$lib/server/form-of';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ locals }) => {
	const families = familiesInStock();
	return {
		families,
		drawing: families[0] ? (familyPage(families[0].id)?.drawing ?? null) : null,
		known: locals.learner !== null,
		running: locals.learner && runningCallout(locals.learner.id)
	};
};

export const actions: Actions = {
	start: async (event) => {
		const family = String((await formOf(event.request)).get('family') ?? '');
		const learner = await learnerOrGuest(event);
		const started = startCallout(learner.id, { family });
		if (started.outcome === 'invalid') error(400, started.says);
		redirect(303, `/callout/${started.attemptId}`);
	}
};
