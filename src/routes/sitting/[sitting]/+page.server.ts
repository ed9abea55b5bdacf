import { error, redirect, type RequestEvent } from '@sveltejs/kit';
import { sessionIdOf } from '$lib/server/accounts';
import { formOf } from '$lib/server/forms/form-of';
import { textsOf } from '$lib/server/forms/texts-of';
import { sittingPage } from '$lib/server/sittings/sitting-page';
import { carryOnHere, goToItem, handIn } from '$lib/server/sittings/sittings';
import type { Actions, PageServerLoad } from './$types';

const missing = 'There is no such sitting here.';
const sitterOf = (event: Pick<RequestEvent, 'locals' | 'cookies'>) => ({ learner: event.locals.learner!.id, seat: sessionIdOf(event) });

export const load: PageServerLoad = ({ params, locals, cookies, url }) => {
	const { id, zone } = locals.learner!;
	const sitting = sittingPage(params.sitting, { id, zone, seat: sessionIdOf({ cookies }) });
	if (sitting.outcome === 'missing') error(404, missing);
	return {
		sitting,
		isHandingIn: url.searchParams.has('hand-in'),
		isWaiting: url.searchParams.has('wait'),
		isGone: url.searchParams.has('gone')
	};
};

export const actions: Actions = {
	/** To an item, begun where it has not been. */
	go: async (event) => {
		const { slot = '' } = textsOf(await formOf(event.request));
		const named = /^\d{1,3}$/.test(slot) ? Number(slot) : null;
		const gone = await goToItem(event.params.sitting, sitterOf(event), named, Date.now());
		const here = `/sitting/${event.params.sitting}`;
		switch (gone.outcome) {
			case 'callout':
			case 'drill':
				return redirect(303, `/${gone.outcome}/${gone.id}`);
			case 'making':
				return redirect(303, `${here}?wait`);
			case 'unplayable':
				return redirect(303, `${here}?gone`);
			case 'closed':
				return redirect(303, here);
			case 'missing':
				// Without a name it is asked for the next that is not done: where none is, the paper can be handed in.
				return named === null ? redirect(303, `${here}?hand-in`) : error(404, missing);
		}
	},

	/** Takes the seat for this browser. */
	seat: (event) => {
		if (!carryOnHere(event.params.sitting, sitterOf(event), Date.now())) error(404, missing);
		redirect(303, `/sitting/${event.params.sitting}`);
	},

	handIn: async (event) => {
		const here = `/sitting/${event.params.sitting}`;
		// Asked a second time first, with what is untried.
		if (textsOf(await formOf(event.request)).sure !== 'yes') redirect(303, `${here}?hand-in`);
		if (handIn(event.params.sitting, sitterOf(event), Date.now()).outcome === 'missing') error(404, missing);
		redirect(303, here);
	}
};
