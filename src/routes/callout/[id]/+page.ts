import type { PageLoad } from './$types';

/** What stands over the bench of a paper is loaded for papers alone. */
export const load: PageLoad = async ({ data }) => ({
	...data,
	Strip: data.strip ? (await import('$lib/sitting/SittingStrip.svelte')).default : null
});
