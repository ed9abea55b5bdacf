import { familiesInStock } from '$lib/server/packs/families';
import { exampleCallouts, ownCallouts } from '$lib/server/callouts/own-callouts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = ({ locals }) => ({
	callouts: locals.learner ? ownCallouts(locals.learner.id) : [],
	examples: exampleCallouts(),
	families: familiesInStock()
});
