import { error } from '@sveltejs/kit';
import { memberRecord } from '$lib/server/records/practice-record';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = ({ locals, params, url }) => {
	const asked = { from: url.searchParams.get('from'), to: url.searchParams.get('to') };
	const record = locals.learner && memberRecord(locals.learner.id, params.cohort, params.member, asked);
	if (!record) error(404, 'There is no such record here.');
	return { record, cohort: params.cohort };
};
