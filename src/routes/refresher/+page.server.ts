import { fail, redirect } from '@sveltejs/kit';
import { formOf } from '$lib/server/forms/form-of';
import { refresherChoice } from '$lib/server/practice/refresher-page';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ locals, url }) => ({
	...refresherChoice(locals.learner?.id ?? null),
	met: url.searchParams.get('met'),
	/** Sent back because none of what was named as known could be compared with. */
	isAlone: url.searchParams.has('none')
});

export const actions: Actions = {
	choose: async ({ request }) => {
		const form = await formOf(request);
		const met = String(form.get('met') ?? '');
		const known = form.getAll('known').map(String);
		if (met === '') return fail(400, { says: 'Choose the family that you meet tomorrow.', met, known });
		const others = known.filter((id) => id !== met);
		if (others.length === 0) return fail(400, { says: 'Tick at least one family that you know, other than the one you meet.', met, known });
		redirect(303, `/refresher/${encodeURIComponent(met)}?${new URLSearchParams(others.map((id) => ['known', id]))}`);
	}
};
