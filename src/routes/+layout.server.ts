import { cohorts } from '$lib/server/cohorts/cohorts';
import { familiesInStock } from '$lib/server/packs/families';
import { settingsOf } from '$lib/ui/settings';
import type { LayoutServerLoad } from './$types';

export const load: LayoutServerLoad = ({ cookies, locals }) => ({
	settings: settingsOf(cookies),
	/** The name of the account that is signed in; null for a guest and for one who only looks. */
	signedIn: locals.learner?.name ?? null,
	/** Whether to show the way to what not everybody has. */
	ways: {
		cohorts: locals.learner?.role === 'assessor' || locals.learner?.role === 'owner',
		papers: locals.learner !== null && cohorts().hasPapers(locals.learner.id)
	},
	/** The local rules of what is in stock, by name. */
	rulesInStock: [...new Set(familiesInStock().map(({ rules }) => rules))].join(', ')
});
