import { error } from '@sveltejs/kit';
import { csvType } from '$lib/server/csv';
import { progressFile } from '$lib/server/practice/progress-files';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = ({ params, locals }) => {
	const text = locals.learner && progressFile(params.file, locals.learner.id);
	if (text === null) error(404, 'There is no such file here.');
	return new Response(text, {
		headers: { 'content-type': csvType, 'content-disposition': `attachment; filename="provewell-${params.file}.csv"` }
	});
};
