import { error, fail, redirect } from '@sveltejs/kit';
import { formOf } from '$lib/server/forms/form-of';
import { answerDrill, findDrill } from '$lib/server/practice/drill-page';
import { placesSaid, readAnswer } from './read-answer';
import type { Said } from './said';
import type { Actions, PageServerLoad } from './$types';

const missing = 'There is no such drill here. It may have been asked in another browser.';

export const load: PageServerLoad = async ({ params, locals }) => {
	const found = locals.learner ? await findDrill(params.id, locals.learner.id) : { outcome: 'missing' as const };
	if (found.outcome === 'missing') error(404, missing);
	if (found.outcome === 'over') error(410, found.says);
	return found.outcome === 'making' ? { drill: null } : { drill: found.drill };
};

export const actions: Actions = {
	answer: async ({ params, locals, request }) => {
		const form = await formOf(request);
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
