import { error, fail, redirect, type RequestEvent } from '@sveltejs/kit';
import { formOf } from '$lib/server/forms/form-of';
import { textsOf } from '$lib/server/forms/texts-of';
import { statusOf } from '$lib/server/outcomes';
import { papers } from '$lib/server/papers/papers';
import type { Actions, PageServerLoad, RouteParams } from './$types';

const missing = 'There is no such paper among those of your cohorts.';

type Event = Pick<RequestEvent<RouteParams>, 'params' | 'locals'>;
const atOf = ({ params: { cohort, paper }, locals }: Event) => ({ assessor: locals.learner!.id, cohort, paper });
const zoneOf = ({ locals }: Event) => locals.learner!.zone;

export const load: PageServerLoad = ({ params, locals }) => {
	const zone = zoneOf({ params, locals });
	const page = papers().page(atOf({ params, locals }), zone, Date.now());
	if (!page) error(404, missing);
	return { ...page, stock: papers().stock(), zone, here: `/cohorts/${params.cohort}/papers/${params.paper}` };
};

type Came = {
	readonly outcome: string;
	readonly says?: string;
	readonly isConflict?: true;
	readonly problems?: Readonly<Record<string, string>>;
};

/** What was not done, for the form that asked for it; else back to the page. */
function answer(of: 'change' | 'redraw' | 'set' | 'extend' | 'copy', came: Came, to: string, fields: Record<string, string> = {}) {
	if (came.outcome === 'missing') error(404, missing);
	const { says = null, problems = {} } = came;
	if (came.outcome === 'refused' || came.outcome === 'unfit') return fail(statusOf(came), { of, says, problems, fields });
	redirect(303, to);
}

export const actions: Actions = {
	change: async (event) => {
		const fields = textsOf(await formOf(event.request));
		return answer('change', papers().change(atOf(event), { fields, zone: zoneOf(event) }), event.url.pathname, fields);
	},
	redraw: async (event) => {
		await formOf(event.request);
		return answer('redraw', papers().redraw(atOf(event)), event.url.pathname);
	},
	set: async (event) => {
		await formOf(event.request);
		return answer('set', papers().set(atOf(event), Date.now()), event.url.pathname);
	},
	extend: async (event) => {
		const fields = textsOf(await formOf(event.request));
		const said = { closes: fields['closes'] ?? '', reason: fields['reason'] };
		return answer('extend', papers().extend(atOf(event), said, zoneOf(event), Date.now()), event.url.pathname, fields);
	},
	copy: async (event) => {
		const fields = textsOf(await formOf(event.request));
		const to = fields['cohort'] ?? '';
		const copied = papers().copy(atOf(event), to, zoneOf(event), Date.now());
		return answer('copy', copied, copied.outcome === 'made' ? `/cohorts/${to}/papers/${copied.id}` : event.url.pathname, fields);
	}
};
