import { error } from '@sveltejs/kit';
import { ownRecord } from '$lib/server/records/practice-record';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = ({ locals, url }) => {
	const asked = { from: url.searchParams.get('from'), to: url.searchParams.get('to') };
	const record = locals.learner && ownRecord(locals.learner.id, asked);
	if (!record) error(404, 'There is no such record here.');
	return { record };
};
