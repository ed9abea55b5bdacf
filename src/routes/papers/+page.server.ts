import { papersOf } from '$lib/server/sittings/learners-papers';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = ({ locals }) => ({ papers: papersOf(locals.learner!) });
