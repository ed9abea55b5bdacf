import { createReadStream, existsSync } from 'node:fs';
import { Readable } from 'node:stream';
import { error } from '@sveltejs/kit';
import { statementsFile } from '$lib/server/records/statements-file';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = () => {
	const path = statementsFile();
	if (!existsSync(path)) error(404, 'No statement has been filed yet.');
	return new Response(Readable.toWeb(createReadStream(path)) as ReadableStream, {
		headers: {
			'content-type': 'application/jsonl; charset=utf-8',
			'content-disposition': 'attachment; filename="provewell-statements.jsonl"'
		}
	});
};
