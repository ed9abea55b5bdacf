import { error } from '@sveltejs/kit';
import { exportOf } from '$lib/server/accounts';
import { settingsOf } from '$lib/ui/settings';
import type { RequestHandler } from './$types';

/** All that is kept of whoever asks, as a file that is made while it is sent. */
export const GET: RequestHandler = ({ locals, cookies }) => {
	if (!locals.learner) error(401, 'Nothing is kept for this browser. Sign in to download what is kept of you.');
	const pieces = exportOf(locals.learner.id, settingsOf(cookies));
	const text = new TextEncoder();
	const body = new ReadableStream<Uint8Array>({
		pull(controller) {
			const { value, done } = pieces.next();
			if (done) controller.close();
			else controller.enqueue(text.encode(value));
		}
	});
	const day = new Date().toISOString().slice(0, 10);
	return new Response(body, {
		headers: {
			'content-type': 'application/json; charset=utf-8',
			'content-disposition': `attachment; filename="provewell-${day}.json"`
		}
	});
};
