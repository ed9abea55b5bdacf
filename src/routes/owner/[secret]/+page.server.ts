import { error, fail, redirect } from '@sveltejs/kit';
import { ownerLinkStands, raiseToOwner, signUp } from '$lib/server/accounts';
import { formOf } from '$lib/server/forms/form-of';
import { textsOf } from '$lib/server/forms/texts-of';
import type { Actions, PageServerLoad } from './$types';

const spent = 'This link is of no use any more: it was used, or the server has been started again since and printed another.';

export const load: PageServerLoad = ({ params, locals }) => {
	if (!ownerLinkStands(params.secret)) error(404, spent);
	return { name: locals.learner?.name ?? null };
};

export const actions: Actions = {
	signUp: async (event) => {
		const fields = textsOf(await formOf(event.request));
		const { outcome, ...refused } = await signUp(event, fields, event.params.secret);
		if (outcome === 'done') redirect(303, '/account?owner');
		return fail(400, { ...refused, name: fields.name ?? '', email: fields.email ?? '' });
	},

	raise: async ({ request, locals, params }) => {
		await formOf(request);
		if (!locals.learner || locals.learner.guest) error(401, 'Sign in first, then open the link again.');
		if (!raiseToOwner(locals.learner.id, params.secret)) error(404, spent);
		redirect(303, '/account?owner');
	}
};
