import { glossary } from '$lib/server/glossary';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = () => ({ terms: glossary() });
