import { error } from '@sveltejs/kit';
import { refresherResult } from '$lib/server/practice/refresher-page';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params, locals }) => {
	const result = await refresherResult(params.round, locals.learner?.id ?? null);
	if (!result) error(404, 'There is no such refresher here. It may have been begun in another browser.');
	return { result };
};
