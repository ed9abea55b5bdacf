import { randomUUID } from 'node:crypto';
import type { Handle, HandleServerError, RequestEvent, ServerInit } from '@sveltejs/kit';
import { admit, recogniseLearner, whoIs } from '$lib/server/accounts';
import { begin, end } from '$lib/server/begin';
import { log } from '$lib/server/log';
import { refusal, sentTo } from '$lib/server/turned-away';

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
	const response = turnAway(event) ?? (await resolve(event));
	for (const [name, value] of Object.entries(headers)) response.headers.set(name, value);
	// A callout is the learner's own and changes with each action: no store on the way keeps it.
	if (!response.headers.has('cache-control')) response.headers.set('cache-control', 'private, no-store');
	return response;
};

/** The answer 403, or the way to signing in, where this visitor may not do that here; null where they may. */
function turnAway(event: RequestEvent): Response | null {
	const { route, request, url, locals } = event;
	// No route: Kit answers that there is no such page.
	if (route.id === null) return null;
	const id = route.id.replace(/\/\([^)]+\)/g, '') || '/';
	const admission = admit(whoIs(locals.learner), id, request.method, actionOf(url), locals.learner?.name ?? null);
	switch (admission.outcome) {
		case 'admitted':
			return null;
		case 'sign-in':
			return sentTo(`/sign-in?to=${encodeURIComponent(url.pathname + url.search)}`);
		case 'refused':
			return refusal(403, admission.says, event);
	}
}

/** Named in the address as `?/name`. */
const actionOf = ({ searchParams }: URL): string | null => [...searchParams.keys()].find((key) => key.startsWith('/'))?.slice(1) ?? null;

export const handleError: HandleServerError = ({ error, event, status, message }) => {
	if (status === 404) return { message: 'There is no such page here.' };
	// Kit's own refusals of what was sent: too large, of a kind not taken.
	if (status < 500) return { message: `What was sent could not be taken (${message}).` };
	const id = randomUUID().slice(0, 8);
	// By its route: the path itself may hold a secret, as those of calendars do.
	log.error({ id, status, route: event.route.id, error: error instanceof Error ? error.stack : String(error) }, message);
	return { message: 'Something went wrong on the server. What you had done before is kept.', id };
};
