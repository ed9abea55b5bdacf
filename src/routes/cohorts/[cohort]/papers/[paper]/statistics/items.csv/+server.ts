import { error } from '@sveltejs/kit';
import { csvType } from '$lib/server/csv';
import { itemsFile } from '$lib/server/statistics/statistics-page';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = ({ params, locals, request }) => {
	// Kit answers HEAD by this as well, and then nothing is taken out.
	const text = itemsFile({ assessor: locals.learner!.id, ...params }, Date.now(), request.method === 'GET');
	if (text === null) error(404, 'There is no such paper among those of your cohorts that are set.');
	return new Response(text, {
		headers: { 'content-type': csvType, 'content-disposition': 'attachment; filename="provewell-items.csv"' }
	});
};
