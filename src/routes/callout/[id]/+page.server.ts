import { error, fail, redirect } from '@sveltejs/kit';
import { actOn, loadCallout } from '$lib/server/callouts';
import { readAction } from './read-action';
import type { Actions, PageServerLoad } from './$types';

const missing = 'There is no such callout here. It may have been started in another browser.';

export const load: PageServerLoad = ({ params, locals }) => {
	const running = locals.learner && loadCallout(params.id, locals.learner.id);
	if (!running) error(404, missing);
	if (running.view.ended) redirect(303, `/callout/${params.id}/debrief`);
	return { view: running.view, seq: running.seq };
};

export const actions: Actions = {
	act: async ({ params, locals, request, url }) => {
		const { seq, wanted } = readAction(await request.formData());
		const acted = locals.learner ? actOn(params.id, locals.learner.id, wanted, seq) : { outcome: 'missing' as const };
		if (acted.outcome === 'missing') error(404, missing);
		if (acted.outcome !== 'done') return fail(acted.outcome === 'invalid' ? 400 : 409, { refused: acted.says });
		const place = url.searchParams.get('place');
		redirect(
			303,
			acted.view.ended ? `/callout/${params.id}/debrief` : `/callout/${params.id}${place ? `?place=${encodeURIComponent(place)}` : ''}`
		);
	}
};
