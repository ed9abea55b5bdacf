import { fail, redirect } from '@sveltejs/kit';
import { learnerOrGuest } from '$lib/server/accounts';
import { formOf } from '$lib/server/forms/form-of';
import { beginRound, endRound, goOn, noSuchLength, tonight } from '$lib/server/practice/tonight';
import { openPapersOf } from '$lib/server/sittings/learners-papers';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => ({
	...(await tonight(locals.learner?.id ?? null)),
	papers: locals.learner ? openPapersOf(locals.learner) : [],
	isWaiting: url.searchParams.has('wait')
});

export const actions: Actions = {
	begin: async (event) => {
		const form = await formOf(event.request);
		const minutes = Number(form.get('minutes'));
		const refused = noSuchLength(minutes);
		if (refused) return fail(400, { says: refused });
		const learner = await learnerOrGuest(event, form.get('zone'));
		const begun = await beginRound(learner.id, minutes);
		if (begun.outcome === 'invalid') return fail(400, { says: begun.says });
		redirect(303, form.has('straight') ? await wayOn(learner.id) : '/tonight');
	},
	/** To the job that is next, which begins it where it has not begun. */
	go: async ({ locals }) => redirect(303, locals.learner ? await wayOn(locals.learner.id) : '/tonight'),
	finish: ({ locals }) => {
		if (locals.learner) endRound(locals.learner.id);
		redirect(303, '/tonight');
	}
};

/** The page of the job that is next. */
async function wayOn(learnerId: string): Promise<string> {
	const gone = await goOn(learnerId);
	switch (gone.outcome) {
		case 'callout':
			return `/callout/${gone.id}`;
		case 'drill':
			return `/drill/${gone.id}`;
		case 'making':
			return '/tonight?wait';
		case 'over':
			return '/tonight';
	}
}
