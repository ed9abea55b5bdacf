import { error } from '@sveltejs/kit';
import { csvType } from '$lib/server/csv';
import { sheets } from '$lib/server/sheets/sheets';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = ({ params, locals, request }) => {
	// Kit answers HEAD by this as well, and then nothing is taken out.
	const text = sheets().file(locals.learner!.id, params, params.file, Date.now(), request.method === 'GET');
	if (text === null) error(404, 'There is no such file here.');
	const name = sheets().fileName(locals.learner!.id, params, params.file);
	return new Response(text, {
		headers: { 'content-type': csvType, 'content-disposition': `attachment; filename="${name}"` }
	});
};
