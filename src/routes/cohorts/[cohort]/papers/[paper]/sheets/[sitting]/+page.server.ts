import { error, fail, redirect } from '@sveltejs/kit';
import { formOf } from '$lib/server/forms/form-of';
import { textsOf } from '$lib/server/forms/texts-of';
import { statusOf } from '$lib/server/outcomes';
import { sheets } from '$lib/server/sheets/sheets';
import type { Actions, PageServerLoad, RequestEvent } from './$types';

const missing = 'There is no such mark sheet among those of your cohorts. A sitting has one once it has closed and been marked.';

export const load: PageServerLoad = ({ params, locals }) => {
	const page = sheets().page(locals.learner!.id, params);
	if (!page) error(404, missing);
	return { page, zone: locals.learner!.zone, here: `/cohorts/${params.cohort}/papers/${params.paper}` };
};

type Moderated = ReturnType<ReturnType<typeof sheets>['lock']>;

/** To where it was done, or the same form again with what is wrong and what was written. */
function answer({ url }: RequestEvent, moderated: Moderated, written: Record<string, string>, name: string, anchor: string) {
	if (moderated.outcome === 'missing') error(404, missing);
	if (moderated.outcome === 'refused') return fail(statusOf(moderated), { form: name, says: moderated.says, written });
	redirect(303, `${url.pathname}#${anchor}`);
}

export const actions: Actions = {
	change: async (event) => {
		const fields = textsOf(await formOf(event.request));
		const changed = sheets().change(event.locals.learner!.id, event.params, fields);
		return answer(event, changed, fields, `change ${fields.slot}`, `item-${fields.slot}`);
	},
	second: async (event) => {
		const fields = textsOf(await formOf(event.request));
		return answer(event, sheets().second(event.locals.learner!.id, event.params, fields), fields, 'second', 'history');
	},
	lock: async (event) => {
		const fields = textsOf(await formOf(event.request));
		return answer(event, sheets().lock(event.locals.learner!.id, event.params, fields.reason), fields, 'lock', 'history');
	},
	unlock: async (event) => {
		const fields = textsOf(await formOf(event.request));
		return answer(event, sheets().unlock(event.locals.learner!.id, event.params, fields.reason), fields, 'unlock', 'history');
	},
	again: async ({ params, locals }) => {
		const again = await sheets().again(locals.learner!.id, params);
		if (!again) error(404, missing);
		return { again };
	}
};
