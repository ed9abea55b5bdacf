import { error } from '@sveltejs/kit';
import { calendarOf } from '$lib/server/practice/reminders';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = ({ params, url }) => {
	const text = calendarOf(params.secret, url.origin);
	if (text === null) error(404, 'There is no calendar at this address. It may have been renewed or ended.');
	return new Response(text, { headers: { 'content-type': 'text/calendar; charset=utf-8' } });
};
