import { glossary } from '$lib/server/packs/glossary';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = () => ({ terms: glossary() });
