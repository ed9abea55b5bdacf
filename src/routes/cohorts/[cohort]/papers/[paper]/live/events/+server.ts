import { error } from '@sveltejs/kit';
import { sessionIdOf } from '$lib/server/accounts';
import { eventStream } from '$lib/server/live/event-stream';
import { liveViews } from '$lib/server/live/live';
import type { RequestHandler } from './$types';

/** The wall whenever it is other than before, as server-sent events. */
export const GET: RequestHandler = ({ params: { cohort, paper }, locals, cookies }) => {
	const [assessor, session] = [locals.learner!.id, sessionIdOf({ cookies })!];
	const live = liveViews();
	if (!live.page(assessor, cohort, paper)) error(404, 'There is no such paper among those of your cohorts.');
	return eventStream((watcher) => live.watch(paper, { ...watcher, session }));
};
