import { familiesInStock } from '$lib/server/families';
import { settingsOf } from '$lib/ui/settings';
import type { LayoutServerLoad } from './$types';

export const load: LayoutServerLoad = ({ cookies }) => ({
	settings: settingsOf(cookies),
	/** The local rules of what is in stock, by name. */
	rulesInStock: [...new Set(familiesInStock().map(({ rules }) => rules))].join(', ')
});
