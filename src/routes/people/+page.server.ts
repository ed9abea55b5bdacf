import { error, fail, redirect } from '@sveltejs/kit';
import { giveRole, people } from '$lib/server/accounts';
import { nameKeeper, toKeep } from '$lib/server/cohorts/keepers';
import { formOf } from '$lib/server/forms/form-of';
import { textsOf } from '$lib/server/forms/texts-of';
import { statusOf } from '$lib/server/outcomes';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ url: { searchParams: asked } }) => ({
	...people({ search: asked.get('search') ?? '', page: Number(asked.get('page') ?? 1) }),
	given: asked.get('given'),
	toKeep: toKeep()
});

export const actions: Actions = {
	role: async ({ request, locals, url }) => {
		const { person = '', role } = textsOf(await formOf(request));
		const given = giveRole(locals.learner!.id, person, role);
		if (given.outcome === 'missing') error(404, 'There is no such account here.');
		if (given.outcome === 'refused') return fail(statusOf(given), { of: 'role' as const, says: given.says });
		const back = new URLSearchParams({
			search: url.searchParams.get('search') ?? '',
			page: url.searchParams.get('page') ?? '1',
			given: person
		});
		redirect(303, `/people?${back}`);
	},

	keeper: async ({ request, locals }) => {
		const named = nameKeeper(locals.learner!.id, textsOf(await formOf(request)));
		if (named.outcome === 'refused') return fail(statusOf(named), { of: 'keeper' as const, says: named.says });
		redirect(303, '/people');
	}
};
