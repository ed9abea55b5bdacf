import { fail, redirect, type RequestEvent } from '@sveltejs/kit';
import { changePassword, deleteAccount, deleteGuest, endAllSessions, endSession, ownAccount } from '$lib/server/accounts';
import { cohorts } from '$lib/server/cohorts/cohorts';
import { formOf } from '$lib/server/forms/form-of';
import { textsOf } from '$lib/server/forms/texts-of';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ locals, url }) => ({
	own: locals.learner && ownAccount(locals.learner.id),
	hasWork: locals.learner !== null,
	cohorts: locals.learner ? cohorts().joining.own(locals.learner.id, Date.now()) : [],
	news: (['welcome', 'changed', 'deleted', 'emptied', 'owner', 'left'] as const).find((one) => url.searchParams.has(one)) ?? null
});

const fieldsOf = async ({ request }: RequestEvent) => textsOf(await formOf(request));

/** Only of an account: a guest has nothing but the session. */
function signOut(event: RequestEvent, everywhere: boolean): never {
	const { learner } = event.locals;
	if (!learner || learner.guest) redirect(303, '/account');
	if (everywhere) endAllSessions(learner.id);
	endSession(event);
	redirect(303, '/');
}

export const actions: Actions = {
	signOut: (event) => signOut(event, false),
	signOutEverywhere: (event) => signOut(event, true),

	password: async (event) => {
		const { outcome, ...refused } = await changePassword(event, await fieldsOf(event));
		if (outcome === 'done') redirect(303, '/account?changed');
		return fail(400, { ...refused, of: 'password' as const });
	},

	leaveCohort: async (event) => {
		const { member = '' } = await fieldsOf(event);
		cohorts().joining.leave(event.locals.learner!.id, member, Date.now());
		redirect(303, '/account?left');
	},

	delete: async (event) => {
		const hasSat = Boolean(event.locals.learner && ownAccount(event.locals.learner.id)?.hasSat);
		const deletion = event.locals.learner?.guest ? deleteGuest : deleteAccount;
		const { outcome, ...refused } = await deletion(event, await fieldsOf(event));
		if (outcome === 'done') redirect(303, hasSat ? '/account?emptied' : '/account?deleted');
		return fail(400, { ...refused, of: 'delete' as const });
	}
};
