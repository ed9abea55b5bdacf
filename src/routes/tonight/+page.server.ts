import { error, redirect } from '@sveltejs/kit';
import { learnerOrGuest } from '$lib/server/accounts';
import { formOf } from '$lib/server/form-of';
import { beginRound, endRound, goOn, tonight } from '$lib/server/practice/tonight';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => ({
	...(await tonight(locals.learner?.id ?? null)),
	isWaiting: url.searchParams.has('wait')
});

export const actions: Actions = {
	begin: async (event) => {
		const form = await formOf(event.request);
		const learner = await learnerOrGuest(event, form.get('zone'));
		const begun = await beginRound(learner.id, Number(form.get('minutes')));
		if (begun.outcome === 'invalid') error(400, begun.says);
		redirect(303, '/tonight');
	},
	/** To the job that is next, which begins it where it has not begun. */
	go: async ({ locals }) => {
		const gone = locals.learner ? await goOn(locals.learner.id) : { outcome: 'over' as const };
		switch (gone.outcome) {
			case 'callout':
				return redirect(303, `/callout/${gone.id}`);
			case 'drill':
				return redirect(303, `/drill/${gone.id}`);
			case 'making':
				return redirect(303, '/tonight?wait');
			case 'over':
				return redirect(303, '/tonight');
		}
	},
	finish: ({ locals }) => {
		if (locals.learner) endRound(locals.learner.id);
		redirect(303, '/tonight');
	}
};
