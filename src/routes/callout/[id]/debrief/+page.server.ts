import { error, redirect } from '@sveltejs/kit';
import { debriefSoon } from '$lib/server/debrief-soon';
import { glossary } from '$lib/server/glossary';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params, locals }) => {
	const soon = await debriefSoon(params.id, locals.learner?.id ?? null);
	switch (soon.outcome) {
		case 'debriefed':
			return { ready: true as const, debrief: soon.debrief, view: soon.callout.view, invented: soon.invented, terms: glossary() };
		case 'making':
			return { ready: false as const, table: soon.table };
		case 'running':
			return redirect(303, `/callout/${params.id}`);
		case 'unplayable':
			return error(410, soon.says);
		case 'missing':
			return error(404, 'There is no such callout here. It may have been started in another browser.');
	}
};
