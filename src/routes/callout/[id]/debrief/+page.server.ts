import { error, redirect } from '@sveltejs/kit';
import { glossary } from '$lib/server/packs/glossary';
import { debriefPage } from '$lib/server/practice/after-a-callout';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params, locals }) => {
	const soon = await debriefPage(params.id, locals.learner?.id ?? null);
	switch (soon.outcome) {
		case 'debriefed': {
			const { debrief, callout, invented, shown, round, sitting } = soon;
			return { ready: true as const, debrief, view: callout.view, invented, shown, round, sitting, terms: glossary() };
		}
		case 'making':
			return { ready: false as const, table: soon.table };
		case 'held':
			return redirect(303, `/sitting/${soon.sitting}`);
		case 'running':
			return redirect(303, `/callout/${params.id}`);
		case 'unplayable':
			return error(410, soon.says);
		case 'missing':
			return error(404, 'There is no such callout here. It may have been started in another browser.');
	}
};
