import { error, redirect } from '@sveltejs/kit';
import { learnerOrGuest } from '$lib/server/accounts';
import { noSuchFamily, startCallout } from '$lib/server/callouts/callouts';
import { runningCallout } from '$lib/server/callouts/own-callouts';
import { familiesInStock, familyPage } from '$lib/server/packs/families';
import { formOf } from '$lib/server/forms/form-of';
import { tonight } from '$lib/server/practice/tonight';
import { openPapersOf, runningSitting } from '$lib/server/sittings/learners-papers';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals }) => {
	const families = familiesInStock();
	return {
		families,
		drawing: families[0] ? (familyPage(families[0].id)?.drawing ?? null) : null,
		known: locals.learner !== null,
		sitting: locals.learner && runningSitting(locals.learner),
		/** Those that are not being sat. */
		papers: locals.learner ? openPapersOf(locals.learner).filter(({ sittings }) => !sittings.some(({ isRunning }) => isRunning)) : [],
		running: locals.learner && runningCallout(locals.learner.id),
		practice: locals.learner && (await tonight(locals.learner.id))
	};
};

export const actions: Actions = {
	start: async (event) => {
		const form = await formOf(event.request);
		const family = String(form.get('family') ?? '');
		const refused = noSuchFamily(family);
		if (refused) error(400, refused);
		const learner = await learnerOrGuest(event, form.get('zone'));
		const started = startCallout(learner.id, { family });
		if (started.outcome === 'invalid') error(400, started.says);
		redirect(303, `/callout/${started.attemptId}`);
	}
};
