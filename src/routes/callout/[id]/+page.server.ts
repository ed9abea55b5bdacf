import { error, fail, redirect } from '@sveltejs/kit';
import { sessionIdOf } from '$lib/server/accounts';
import { actInTurn, findCallout, gapsOfCallout, soundBandsOf } from '$lib/server/callouts/callouts';
import type { RunningCallout } from '$lib/server/callouts/outcomes';
import { coachingOf } from '$lib/server/callouts/coaching';
import { formOf } from '$lib/server/forms/form-of';
import { keep } from '$lib/server/forms/keep-choice';
import { glossary } from '$lib/server/packs/glossary';
import { reviewSoon } from '$lib/server/practice/after-a-callout';
import { onTheBench, type OnTheBench } from '$lib/server/sittings/on-the-bench';
import { runningSitting } from '$lib/server/sittings/learners-papers';
import { cookieNames, settingsOf, sheetOrderOf } from '$lib/ui/settings';
import { defaultZone } from '#shared/review/memory/memory.ts';
import { readActions } from './read-action';
import type { Actions, PageServerLoad, RequestEvent } from './$types';

const missing = 'There is no such callout here. It may have been started in another browser.';

export const load: PageServerLoad = async ({ params, locals, cookies, url }) => {
	const running = locals.learner ? findCallout(params.id, locals.learner.id) : { outcome: 'missing' as const };
	if (running.outcome === 'missing') error(404, missing);
	if (running.outcome === 'unplayable') error(410, running.says);
	const bench = benchOf({ params, locals, cookies });
	if (bench.outcome === 'away') redirect(303, `/sitting/${bench.sitting}`);
	if (running.view.ended || bench.outcome === 'told') redirect(303, whereItIsTold(params.id, bench));
	const strip = bench.outcome === 'open' ? bench.strip : null;
	const isFormal = strip?.isFormal ?? false;
	const asked = url.searchParams.get('sort');
	const order = sheetOrderOf(asked, cookies.get(cookieNames.order));
	if (asked === order) keep(cookies, url, cookieNames.order, order);
	return {
		...(await asSeen(running, { locals, cookies }, isFormal)),
		order,
		wantsBands: settingsOf(cookies).bands && !isFormal,
		isFirst: cookies.get(cookieNames.toured) === undefined && runningSitting(locals.learner!) === null,
		strip,
		terms: glossary()
	};
};

export const actions: Actions = {
	act: async ({ params, locals, request, url, cookies }) => {
		const form = await formOf(request);
		const bench = benchOf({ params, locals, cookies });
		if (bench.outcome === 'away' || bench.outcome === 'told') redirect(303, `/sitting/${bench.sitting}`);
		const { seq, wanted } = readActions(form);
		const acted = locals.learner ? actInTurn(params.id, locals.learner.id, wanted, seq) : { outcome: 'missing' as const };
		if (acted.outcome === 'missing') error(404, missing);
		if (acted.outcome === 'unplayable') error(410, acted.says);
		if (acted.view.ended) {
			reviewSoon(params.id);
			redirect(303, whereItIsTold(params.id, bench));
		}
		// A page with scripts takes the callout from the answer; without scripts the page is loaded again.
		const scripted = request.headers.get('x-sveltekit-action') === 'true';
		const now = scripted ? await asSeen(acted, { locals, cookies }, bench.outcome === 'open' && bench.strip.isFormal) : undefined;
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

/** Whether it can be worked at from here, where it is of a sitting. Asked of a learner's own callout only; of another's nothing is told. */
function benchOf({ params, locals, cookies }: Pick<RequestEvent, 'params' | 'locals' | 'cookies'>) {
	const { id = '', zone = defaultZone } = locals.learner ?? {};
	return onTheBench({ attempt: params.id }, { learner: id, zone, seat: sessionIdOf({ cookies }) });
}

/** What came of a callout that has ended stands in its debrief; while it is of a paper that runs, the way is back to that. */
const whereItIsTold = (id: string, bench: OnTheBench) =>
	bench.outcome === 'open' ? `/sitting/${bench.strip.id}` : `/callout/${id}/debrief`;

/** The callout as its learner may see it, with the bands and the coaching that this browser asks for; in a formal paper with neither. */
async function asSeen(
	{ attemptId, view, seq }: RunningCallout,
	{ locals, cookies }: Pick<RequestEvent, 'locals' | 'cookies'>,
	isFormal: boolean
) {
	const { bands, coaching } = settingsOf(cookies);
	const learner = isFormal ? undefined : locals.learner?.id;
	return {
		view,
		seq,
		bands: bands && learner ? await soundBandsOf(attemptId, learner) : [],
		gaps: learner ? await gapsOfCallout(attemptId, learner) : [],
		coaching: coaching && learner ? coachingOf(learner, view) : null
	};
}
