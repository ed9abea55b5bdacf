/**
 * Who may reach what. Every route and every action stands here; what does not is not reached by anybody. That a cohort, a paper or a callout
 * is one's own is looked at besides, by the services.
 */
import type { Role } from '../database/schema.ts';
import type { Learner } from './learners.ts';

/** A visitor has no session yet; a guest has one and no account. */
export type Who = 'visitor' | 'guest' | Role;

const everyone: readonly Who[] = ['visitor', 'guest', 'learner', 'assessor', 'author', 'owner'];
const known: readonly Who[] = ['guest', 'learner', 'assessor', 'author', 'owner'];
const accounts: readonly Who[] = ['learner', 'assessor', 'author', 'owner'];
const assessors: readonly Who[] = ['assessor', 'owner'];
const owners: readonly Who[] = ['owner'];

/** By route: who may look at it (`GET`), and who may do what its form actions or methods name. */
export const access: Readonly<Record<string, Readonly<Record<string, readonly Who[]>>>> = {
	'/': { GET: everyone, start: everyone },
	'/account': { GET: everyone, signOut: known, signOutEverywhere: known, password: accounts, leaveCohort: accounts, delete: known },
	'/account/export': { GET: everyone },
	'/calendar/[secret].ics': { GET: everyone },
	'/callout/[id]': { GET: everyone, act: everyone, coach: everyone },
	'/callout/[id]/debrief': { GET: everyone },
	'/callouts': { GET: everyone },
	'/drill/[id]': { GET: everyone, answer: everyone },
	'/drills': { GET: everyone, ask: everyone },
	'/families': { GET: everyone },
	'/families/[family]': { GET: everyone },
	'/health': { GET: everyone },
	'/owner/[secret]': { GET: everyone, signUp: everyone, raise: everyone },
	'/people': { GET: owners, role: owners, keeper: owners },
	'/progress': { GET: everyone },
	'/progress/[file].csv': { GET: everyone },
	'/refresher': { GET: everyone, choose: everyone },
	'/refresher/[met]': { GET: everyone, begin: everyone },
	'/refresher/result/[round]': { GET: everyone },
	'/settings': { GET: everyone, keep: everyone, zone: everyone },
	'/settings/recall': { GET: everyone, default: everyone },
	'/settings/reminders': { GET: everyone, make: everyone, end: everyone },
	'/sign-in': { GET: everyone, default: everyone },
	'/sign-up': { GET: everyone, default: everyone },
	'/theme': { POST: everyone },
	'/tonight': { GET: everyone, begin: everyone, go: everyone, finish: everyone },
	'/words': { GET: everyone },

	'/join': { GET: everyone, default: everyone },
	'/join/[code]': { GET: everyone, default: accounts },
	'/papers': { GET: accounts },
	'/papers/[paper]': { GET: accounts, begin: accounts },
	'/sitting/[sitting]': { GET: accounts, go: accounts, seat: accounts, handIn: accounts },
	'/record': { GET: accounts },
	'/records': { GET: owners, again: owners },
	'/records/statements.jsonl': { GET: owners },

	'/cohorts': { GET: assessors, create: assessors },
	'/cohorts/[cohort]': { GET: assessors, project: assessors },
	'/cohorts/[cohort]/register': {
		GET: assessors,
		look: assessors,
		add: assessors,
		extra: assessors,
		takeOff: assessors,
		merge: assessors,
		invite: assessors,
		renewCode: assessors,
		endCode: assessors,
		addColleague: assessors,
		dropColleague: assessors,
		rename: assessors,
		archive: assessors,
		restore: assessors
	},
	'/cohorts/[cohort]/register/invitations': { GET: assessors },
	'/cohorts/[cohort]/record/[member]': { GET: assessors },
	'/cohorts/[cohort]/papers/[paper]/statistics': { GET: assessors },
	'/cohorts/[cohort]/papers/[paper]/statistics/items.csv': { GET: assessors },
	'/cohorts/[cohort]/papers/[paper]/sheets': { GET: assessors, lock: assessors },
	'/cohorts/[cohort]/papers/[paper]/sheets/[file].csv': { GET: assessors },
	'/cohorts/[cohort]/papers/[paper]/sheets/[sitting]': {
		GET: assessors,
		change: assessors,
		second: assessors,
		lock: assessors,
		unlock: assessors,
		again: assessors
	},
	'/cohorts/[cohort]/papers/[paper]/sheets/[sitting]/[slot]': { GET: assessors },
	'/cohorts/[cohort]/papers/[paper]/live': { GET: assessors, close: assessors },
	'/cohorts/[cohort]/papers/[paper]/live/events': { GET: assessors },
	'/cohorts/[cohort]/papers/[paper]/live/now': { GET: assessors },
	'/cohorts/[cohort]/papers/new': { GET: assessors, default: assessors },
	'/cohorts/[cohort]/papers/[paper]': {
		GET: assessors,
		change: assessors,
		redraw: assessors,
		set: assessors,
		extend: assessors,
		copy: assessors
	},
	'/cohorts/[cohort]/papers/[paper]/standard': { GET: assessors, keep: assessors, take: assessors },
	'/cohorts/[cohort]/papers/[paper]/variant/[number]': { GET: assessors }
};

export const whoIs = (learner: Learner | null): Who => (learner === null ? 'visitor' : learner.guest ? 'guest' : learner.role);

export type Admission =
	{ readonly outcome: 'admitted' } | { readonly outcome: 'sign-in' } | { readonly outcome: 'refused'; readonly says: string };

/**
 * @param route   as Kit names it, without its groups
 * @param method  of the request
 * @param name    of the account, for whoever is told to ask to be let in; null where there is none
 * @param action  the name of the form's action, where the address has one; of no meaning where the route takes the method itself
 */
export function admit(who: Who, route: string, method: string, action: string | null, name: string | null = null): Admission {
	const isReading = method === 'GET' || method === 'HEAD';
	const named = Object.hasOwn(access, route) ? access[route]! : {};
	const key = isReading ? 'GET' : method === 'POST' && !('POST' in named) ? (action ?? 'default') : method;
	// An action is never called as a method is: one so named in an address would be let in by what is said of that method.
	const isNamed = Object.hasOwn(named, key) && (isReading || key !== 'GET');
	const admitted = isNamed ? named[key] : undefined;
	if (admitted?.includes(who)) return { outcome: 'admitted' };
	if (isReading && accounts.some((one) => admitted?.includes(one)) && !accounts.includes(who)) return { outcome: 'sign-in' };
	return { outcome: 'refused', says: saysTo(admitted, name) };
}

function saysTo(admitted: readonly Who[] | undefined, name: string | null): string {
	if (admitted?.includes('learner')) return 'This needs an account. Sign in first.';
	if (admitted?.includes('assessor'))
		return `This is for assessors. To be one, ask whoever owns this server${name === null ? '' : `, and tell them your account name: ${name}`}.`;
	return 'This is for whoever owns this server.';
}
