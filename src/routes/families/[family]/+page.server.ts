import { error } from '@sveltejs/kit';
import { familyPage } from '$lib/server/packs/families';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params }) => {
	const family = familyPage(params.family);
	if (!family) error(404, 'No such appliance family is in stock.');
	return { family };
};
