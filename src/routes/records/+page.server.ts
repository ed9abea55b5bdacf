import { redirect } from '@sveltejs/kit';
import { records, sendAgain } from '$lib/server/records/waiting';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ url }) => ({ records: records(), again: url.searchParams.has('again') });

export const actions: Actions = {
	again: () => {
		sendAgain();
		redirect(303, '/records?again');
	}
};
