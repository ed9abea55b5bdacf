import { areas } from '#shared/scenario/areas.ts';
import { progressOf } from '$lib/server/practice/progress';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = ({ locals }) => ({ progress: progressOf(locals.learner?.id ?? null), areas });
