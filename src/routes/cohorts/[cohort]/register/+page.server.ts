import { error, fail, redirect, type RequestEvent } from '@sveltejs/kit';
import type { Changed } from '$lib/server/cohorts/changing';
import { cohorts } from '$lib/server/cohorts/cohorts';
import { formOf } from '$lib/server/forms/form-of';
import { textsOf } from '$lib/server/forms/texts-of';
import { statusOf, type RefusedForm } from '$lib/server/outcomes';
import type { Actions, PageServerLoad } from './$types';

type Event = RequestEvent<{ cohort: string }>;

const missing = () => error(404, 'There is no such cohort, or no such name, here.');

export const load: PageServerLoad = ({ params, locals, url }) => {
	const page = cohorts().registerPage(locals.learner!.id, params.cohort, url.origin);
	if (!page) missing();
	const news = ['added', 'saved', 'off', 'merged', 'invited', 'renewed'] as const;
	return { ...page!, news: news.find((one) => url.searchParams.has(one)) ?? null };
};

const byOf = ({ params, locals }: Event) => ({ assessor: locals.learner!.id, cohort: params.cohort, now: Date.now() });

/** Back to the register, or what was refused. @param of  the form that it comes back in */
function answer(event: Event, changed: Changed, of: string, news: string, place = '') {
	if (changed.outcome === 'missing') missing();
	if (changed.outcome === 'refused') return turnedAway(changed, of);
	redirect(303, `/cohorts/${event.params.cohort}/register?${news}${place}`);
}
const turnedAway = (refused: RefusedForm, of: string) => fail(statusOf(refused), { of, says: refused.says, problems: refused.problems });

export const actions: Actions = {
	look: async (event) => {
		const form = await formOf(event.request);
		const file = form.get('file');
		const looked = await cohorts().register.lookOver(byOf(event), textsOf(form).names ?? '', file instanceof File ? file : null);
		if (looked.outcome === 'missing') missing();
		if (looked.outcome === 'refused') return turnedAway(looked, 'names');
		return { of: 'names', ...looked };
	},

	add: async (event) => {
		const { names = '' } = textsOf(await formOf(event.request));
		const added = cohorts().register.add(byOf(event), names);
		if (added.outcome === 'missing') missing();
		if (added.outcome === 'refused') return turnedAway(added, 'names');
		if (added.outcome === 'looked') return fail(400, { of: 'names', ...added });
		redirect(303, `/cohorts/${event.params.cohort}/register?added`);
	},

	extra: async (event) => {
		const { member: id = '', extra = '' } = textsOf(await formOf(event.request));
		return answer(event, cohorts().register.setExtra(byOf(event), id, { extra }), id, 'saved', `#m-${id}`);
	},

	takeOff: async (event) => {
		const { member: id = '' } = textsOf(await formOf(event.request));
		return answer(event, cohorts().register.takeOff(byOf(event), id), id, 'off');
	},

	merge: async (event) => {
		const { member: id = '', into = '' } = textsOf(await formOf(event.request));
		return answer(event, cohorts().merge(byOf(event), id, into), id, 'merged', `#m-${into}`);
	},

	invite: async (event) => {
		const { member: id = '' } = textsOf(await formOf(event.request));
		return answer(event, cohorts().register.inviteAgain(byOf(event), id), id, 'invited', `#m-${id}`);
	},

	renewCode: (event) => answer(event, cohorts().setCode(byOf(event), true), 'code', 'renewed'),
	endCode: (event) => answer(event, cohorts().setCode(byOf(event), false), 'code', 'saved'),

	addColleague: async (event) => {
		const fields = textsOf(await formOf(event.request));
		return answer(event, cohorts().colleagues.add(event, byOf(event), fields), 'colleagues', 'saved');
	},

	dropColleague: async (event) => {
		const { colleague: id = '' } = textsOf(await formOf(event.request));
		return answer(event, cohorts().colleagues.drop(byOf(event), id), 'colleagues', 'saved');
	},

	rename: async (event) => {
		const fields = textsOf(await formOf(event.request));
		return answer(event, cohorts().rename(byOf(event), fields), 'name', 'saved');
	},

	archive: (event) => answer(event, cohorts().archive(byOf(event)), 'archive', 'saved'),
	restore: (event) => answer(event, cohorts().restore(byOf(event)), 'archive', 'saved')
};
