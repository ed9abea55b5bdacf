import { error, redirect } from '@sveltejs/kit';
import { learnerOrGuest } from '$lib/server/accounts';
import { formOf } from '$lib/server/form-of';
import { askDrill, drillKinds } from '$lib/server/practice/drill-page';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => ({
	kinds: await drillKinds(locals.learner?.id ?? null),
	isWaiting: url.searchParams.has('wait')
});

export const actions: Actions = {
	ask: async (event) => {
		const form = await formOf(event.request);
		const learner = await learnerOrGuest(event, form.get('zone'));
		const asked = await askDrill(learner.id, String(form.get('kind') ?? ''));
		if (asked.outcome === 'invalid') error(400, asked.says);
		redirect(303, asked.outcome === 'making' ? '/drills?wait' : `/drill/${asked.id}`);
	}
};
