import { error, fail, redirect } from '@sveltejs/kit';
import { learnerOrGuest } from '$lib/server/accounts';
import { formOf } from '$lib/server/forms/form-of';
import { beginRefresher, refresherPage, whyNotBegun, type NotBegun } from '$lib/server/practice/refresher-page';
import type { Actions, PageServerLoad } from './$types';

const unknown = 'No such appliance family is in stock.';
const chooser = (met: string): string => `/refresher?${new URLSearchParams({ met, none: '' })}`;

export const load: PageServerLoad = ({ params: { met }, url, locals }) => {
	const page = refresherPage({ met, known: url.searchParams.getAll('known') }, locals.learner?.id ?? null);
	switch (page.outcome) {
		case 'unknown':
			return error(404, unknown);
		case 'alone':
			return redirect(303, chooser(met));
		case 'compared':
			return { sheet: page.sheet, open: page.open };
	}
};

export const actions: Actions = {
	begin: async (event) => {
		const { met } = event.params;
		const form = await formOf(event.request);
		const families = { met, known: form.getAll('known').map(String) };
		const refused = whyNotBegun(families);
		if (refused) return turnedAway(refused, met);
		const learner = await learnerOrGuest(event, form.get('zone'));
		const begun = beginRefresher(learner.id, families, form.get('end') === 'yes');
		switch (begun.outcome) {
			case 'begun':
				return redirect(303, '/tonight');
			case 'open':
				return fail(409, { open: begun.open });
			default:
				return turnedAway(begun.outcome, met);
		}
	}
};

function turnedAway(why: NotBegun, met: string) {
	switch (why) {
		case 'alike':
			return fail(400, { says: 'Nothing in which these differ can be practised.' });
		case 'alone':
			return redirect(303, chooser(met));
		case 'unknown':
			return error(404, unknown);
	}
}
