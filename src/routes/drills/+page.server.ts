import { fail, redirect } from '@sveltejs/kit';
import { learnerOrGuest } from '$lib/server/accounts';
import { formOf } from '$lib/server/forms/form-of';
import { askDrill, drillKinds, noSuchDrill } from '$lib/server/practice/drill-page';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => ({
	kinds: await drillKinds(locals.learner?.id ?? null),
	isWaiting: url.searchParams.has('wait')
});

export const actions: Actions = {
	ask: async (event) => {
		const form = await formOf(event.request);
		const kind = String(form.get('kind') ?? '');
		const refused = noSuchDrill(kind);
		if (refused) return fail(400, { says: refused });
		const learner = await learnerOrGuest(event, form.get('zone'));
		const asked = await askDrill(learner.id, kind);
		if (asked.outcome === 'invalid') return fail(400, { says: asked.says });
		redirect(303, asked.outcome === 'making' ? '/drills?wait' : `/drill/${asked.id}`);
	}
};
