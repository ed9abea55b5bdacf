import { error, fail, redirect } from '@sveltejs/kit';
import { actInTurn, findCallout, gapsOfCallout, soundBandsOf } from '$lib/server/callouts/callouts';
import type { RunningCallout } from '$lib/server/callouts/outcomes';
import { coachingOf } from '$lib/server/callouts/coaching';
import { formOf } from '$lib/server/forms/form-of';
import { keep } from '$lib/server/forms/keep-choice';
import { glossary } from '$lib/server/packs/glossary';
import { reviewSoon } from '$lib/server/practice/after-a-callout';
import { cookieNames, settingsOf, sheetOrderOf } from '$lib/ui/settings';
import { readActions } from './read-action';
import type { Actions, PageServerLoad, RequestEvent } from './$types';

const missing = 'There is no such callout here. It may have been started in another browser.';

export const load: PageServerLoad = async ({ params, locals, cookies, url }) => {
	const running = locals.learner ? findCallout(params.id, locals.learner.id) : { outcome: 'missing' as const };
	if (running.outcome === 'missing') error(404, missing);
	if (running.outcome === 'unplayable') error(410, running.says);
	if (running.view.ended) redirect(303, `/callout/${params.id}/debrief`);
	const asked = url.searchParams.get('sort');
	const order = sheetOrderOf(asked, cookies.get(cookieNames.order));
	if (asked === order) keep(cookies, url, cookieNames.order, order);
	return {
		...(await asSeen(running, { locals, cookies })),
		order,
		wantsBands: settingsOf(cookies).bands,
		isFirst: cookies.get(cookieNames.toured) === undefined,
		terms: glossary()
	};
};

export const actions: Actions = {
	act: async ({ params, locals, request, url, cookies }) => {
		const form = await formOf(request);
		const { seq, wanted } = readActions(form);
		const acted = locals.learner ? actInTurn(params.id, locals.learner.id, wanted, seq) : { outcome: 'missing' as const };
		if (acted.outcome === 'missing') error(404, missing);
		if (acted.outcome === 'unplayable') error(410, acted.says);
		if (acted.view.ended) {
			reviewSoon(params.id);
			redirect(303, `/callout/${params.id}/debrief`);
		}
		// A page with scripts takes the callout from the answer; without scripts the page is loaded again.
		const scripted = request.headers.get('x-sveltekit-action') === 'true';
		const now = scripted ? await asSeen(acted, { locals, cookies }) : undefined;
		if (acted.outcome !== 'done') {
			const kind = acted.outcome === 'conflict' ? ('conflict' as const) : ('refused' as const);
			return fail(acted.outcome === 'invalid' ? 400 : 409, {
				now,
				notDone: { kind, says: acted.says },
				unsaved: String(form.get('text') ?? '')
			});
		}
		if (now) return { now };
		const place = url.searchParams.get('place');
		redirect(303, `/callout/${params.id}${place ? `?place=${encodeURIComponent(place)}` : ''}`);
	},

	/** Switches coaching on or off for this browser. */
	coach: async ({ params, request, url, cookies }) => {
		const form = await formOf(request);
		keep(cookies, url, cookieNames.coaching, form.get('coaching') === '1' ? '1' : '0');
		const place = url.searchParams.get('place');
		redirect(303, `/callout/${params.id}${place ? `?place=${encodeURIComponent(place)}` : ''}#sheet`);
	}
};

/** The callout as its learner may see it, with the bands and the coaching that this browser asks for. */
async function asSeen({ attemptId, view, seq }: RunningCallout, { locals, cookies }: Pick<RequestEvent, 'locals' | 'cookies'>) {
	const { bands, coaching } = settingsOf(cookies);
	const learner = locals.learner?.id;
	return {
		view,
		seq,
		bands: bands && learner ? await soundBandsOf(attemptId, learner) : [],
		gaps: learner ? await gapsOfCallout(attemptId, learner) : [],
		coaching: coaching && learner ? coachingOf(learner, view) : null
	};
}
