import { familiesInStock } from '$lib/server/families';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = () => ({ families: familiesInStock() });
