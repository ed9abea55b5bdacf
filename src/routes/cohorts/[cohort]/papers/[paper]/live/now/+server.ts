import { error, json } from '@sveltejs/kit';
import { liveViews } from '$lib/server/live/live';
import type { RequestHandler } from './$types';

/** The wall as it stands, for a browser that no events reach. */
export const GET: RequestHandler = ({ params: { cohort, paper }, locals }) => {
	const page = liveViews().page(locals.learner!.id, cohort, paper);
	if (!page) error(404, 'There is no such paper among those of your cohorts.');
	return json({ now: page.now, wall: page.wall });
};
