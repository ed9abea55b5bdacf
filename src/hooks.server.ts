import { randomUUID } from 'node:crypto';
import type { Handle, HandleServerError, ServerInit } from '@sveltejs/kit';
import { recogniseLearner } from '$lib/server/accounts';
import { begin, end } from '$lib/server/begin';
import { log } from '$lib/server/log';

export const init: ServerInit = () => {
	begin();
	process.once('sveltekit:shutdown', end);
};

const headers = {
	'x-content-type-options': 'nosniff',
	'x-frame-options': 'DENY',
	'referrer-policy': 'same-origin',
	'cross-origin-opener-policy': 'same-origin',
	'permissions-policy': 'camera=(), microphone=(), geolocation=()'
};

export const handle: Handle = async ({ event, resolve }) => {
	event.locals.learner = await recogniseLearner(event);
	const response = await resolve(event);
	for (const [name, value] of Object.entries(headers)) response.headers.set(name, value);
	// A callout is the learner's own and changes with each action: no store on the way keeps it.
	if (!response.headers.has('cache-control')) response.headers.set('cache-control', 'private, no-store');
	return response;
};

export const handleError: HandleServerError = ({ error, event, status, message }) => {
	if (status === 404) return { message: 'There is no such page here.' };
	// Kit's own refusals of what was sent: too large, of a kind not taken.
	if (status < 500) return { message: `What was sent could not be taken (${message}).` };
	const id = randomUUID().slice(0, 8);
	// By its route: the path itself may hold a secret, as those of calendars do.
	log.error({ id, status, route: event.route.id, error: error instanceof Error ? error.stack : String(error) }, message);
	return { message: 'Something went wrong on the server. What you had done before is kept.', id };
};
