import { familiesInStock } from '$lib/server/packs/families';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = () => ({ families: familiesInStock() });
