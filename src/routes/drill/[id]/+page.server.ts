import { error, fail, redirect } from '@sveltejs/kit';
import { sessionIdOf } from '$lib/server/accounts';
import { formOf } from '$lib/server/forms/form-of';
import { answerDrill, findDrill } from '$lib/server/practice/drill-page';
import { onTheBench } from '$lib/server/sittings/on-the-bench';
import { defaultZone } from '#shared/review/memory/memory.ts';
import { placesSaid, readAnswer } from './read-answer';
import type { Said } from './said';
import type { Actions, PageServerLoad, RequestEvent } from './$types';

const missing = 'There is no such drill here. It may have been asked in another browser.';

export const load: PageServerLoad = async ({ params, locals, cookies }) => {
	const found = locals.learner ? await findDrill(params.id, locals.learner.id) : { outcome: 'missing' as const };
	if (found.outcome === 'missing') error(404, missing);
	if (found.outcome === 'over') error(410, found.says);
	const bench = benchOf({ params, locals, cookies });
	if (bench.outcome === 'away') redirect(303, `/sitting/${bench.sitting}`);
	const drill = found.outcome === 'making' ? null : found.drill;
	if (bench.outcome === 'told' && drill && !drill.answered) redirect(303, `/sitting/${bench.sitting}`);
	return { drill, strip: bench.outcome === 'open' ? bench.strip : null, told: bench.outcome === 'told' ? bench.sitting : null };
};

/** Whether it can be answered from here, where it is of a sitting. */
function benchOf({ params, locals, cookies }: Pick<RequestEvent, 'params' | 'locals' | 'cookies'>) {
	const { id = '', zone = defaultZone } = locals.learner ?? {};
	return onTheBench({ drill: params.id }, { learner: id, zone, seat: sessionIdOf({ cookies }) });
}

export const actions: Actions = {
	answer: async ({ params, locals, request, cookies }) => {
		const form = await formOf(request);
		const bench = benchOf({ params, locals, cookies });
		if (bench.outcome === 'away' || bench.outcome === 'told') redirect(303, `/sitting/${bench.sitting}`);
		const answer = readAnswer(form);
		const answered = !locals.learner
			? { outcome: 'missing' as const }
			: 'refused' in answer
				? { outcome: 'refused' as const, says: answer.refused }
				: await answerDrill(params.id, locals.learner.id, answer);
		switch (answered.outcome) {
			case 'missing':
				return error(404, missing);
			case 'over':
				return error(410, answered.says);
			case 'refused': {
				const said: Said = {
					chosen: form.getAll('chosen').map(String),
					written: String(form.get('written') ?? ''),
					places: placesSaid(form)
				};
				return fail(400, { refused: answered.says, said });
			}
			case 'making':
			case 'answered':
				return redirect(303, `/drill/${params.id}`);
		}
	}
};
