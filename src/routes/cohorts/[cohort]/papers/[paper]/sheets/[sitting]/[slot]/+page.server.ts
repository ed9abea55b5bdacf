import { error } from '@sveltejs/kit';
import { sheets } from '$lib/server/sheets/sheets';
import type { PageServerLoad } from './$types';

/** A whole number as an address has it; anything else is none. */
const numberIn = (text: string | null) => (text !== null && /^\d{1,4}$/.test(text) ? Number(text) : null);

export const load: PageServerLoad = async ({ params, url, locals }) => {
	const slot = numberIn(params.slot);
	const page = slot === null ? null : await sheets().replay(locals.learner!.id, params, slot, numberIn(url.searchParams.get('at')));
	if (!page) error(404, 'There is no such item on a mark sheet of your cohorts.');
	const { replayed } = page;
	return {
		page,
		view: replayed.kind === 'callout' ? replayed.view : null,
		here: `/cohorts/${params.cohort}/papers/${params.paper}/sheets`
	};
};
