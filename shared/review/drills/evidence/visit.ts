/** A visit under way, made up for a drill: the complaint, what anyone would notice, and a few checks taken. */
import type { Demand } from '#shared/appliance/model.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { needsOfCheck } from '#shared/callout/needs.ts';
import { takeCheck } from '#shared/callout/take-check.ts';
import { columnKey } from '#shared/diagnosis/column-facts.ts';
import type { EvidenceTable, Suspicion } from '#shared/diagnosis/evidence.ts';
import type { Evidence } from '#shared/diagnosis/likelihood.ts';
import type { Standing } from '#shared/diagnosis/next-action.ts';
import { planCheck, planDemand, type Plan, type Situation } from '#shared/diagnosis/plan.ts';
import { suspicion } from '#shared/diagnosis/suspicion.ts';
import { mostSeed, type Chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';
import { openingSite } from '#shared/scenario/site.ts';
import type { Given } from '../drill.ts';
import { checkUnder, demandShort, readingText } from './words.ts';

export interface Taken extends Evidence {
	readonly of: Check;
	readonly text: string;
}

export interface Visit {
	readonly callout: Callout;
	readonly readings: readonly Taken[];
	readonly at: Situation;
}

/** The demand complained of has been set, and what anyone would notice under it is known. */
export function arrive(pack: Pack, stream: Chance): Visit | null {
	const callout = makeCallout(pack, stream.whole(0, mostSeed));
	const { demand } = callout.complaint.proves;
	const found: Situation = { demand: 'none', site: new Set(openingSite), fetched: new Set() };
	const plan = planDemand(pack, found, demand);
	if (!plan) return null;
	const noticed = pack.checks.filter(
		(check) => check.noticed && check.under.includes(demand) && needsOfCheck(check).every((need) => plan.after.site.has(need))
	);
	return { callout, readings: noticed.map((check) => readingOf(callout, check, demand)), at: plan.after };
}

function readingOf(callout: Callout, check: Check, demand: Demand): Taken {
	const { value, text } = takeCheck(callout, check, { demand, cured: false, occasion: 0 });
	return { check: check.id, demand, value, after: [], of: check, text };
}

/** The visit with one more check taken. */
export function withCheck(visit: Visit, check: Check, demand: Demand, plan: Plan): Visit {
	return { ...visit, readings: [...visit.readings, readingOf(visit.callout, check, demand)], at: plan.after };
}

/** A check that could be taken now, and what it takes. */
export interface Open {
	readonly check: Check;
	readonly demand: Demand;
	readonly plan: Plan;
}

/** Checks not taken yet, under any demand that they offer. What the customer is asked and what anyone notices are not among them. */
export function openChecks(pack: Pack, { readings, at }: Visit): Open[] {
	const taken = new Set(readings.map(({ check, demand }) => columnKey(check, demand)));
	return pack.checks
		.filter(({ noticed, way }) => !noticed && way !== 'ask')
		.flatMap((check) =>
			check.under.flatMap((demand) => {
				const plan = taken.has(columnKey(check.id, demand)) ? null : planCheck(pack, at, check, demand);
				return plan ? [{ check, demand, plan }] : [];
			})
		);
}

/** Checks of more than this are not taken in passing [min]. */
const inPassingMin = 12;

/** So many quick checks taken, those that show what is suspected the likelier. Nothing in the choice depends on the hidden fault. */
export function lookAbout(pack: Pack, table: EvidenceTable, visit: Visit, stream: Chance, checks: number): Visit {
	const { faults } = believed(pack, table, visit);
	const showing = new Map<string, number>();
	pack.faults.forEach(({ shown }, fault) => shown.forEach((check) => showing.set(check, (showing.get(check) ?? 0) + faults[fault])));
	let now = visit;
	for (let taken = 0; taken < checks; taken++) {
		const read = new Set(now.readings.map(({ check }) => check));
		const open = openChecks(pack, now).filter(({ check, plan }) => !read.has(check.id) && plan.minutes <= inPassingMin);
		if (open.length === 0) return now;
		const { check, demand, plan } = stream.pick(
			open,
			({ check, plan }) => (0.05 + (showing.get(check.id) ?? 0)) / ((2 + plan.minutes) * check.under.length)
		);
		now = withCheck(now, check, demand, plan);
	}
	return now;
}

/** What the customer answers when asked this, which takes next to no time. */
export function withAnswers(visit: Visit, stream: Chance, answers: number): Visit {
	const { pack } = visit.callout;
	const asked = pack.checks.filter(({ way }) => way === 'ask');
	let now = visit;
	for (let i = 0; i < answers; i++) {
		const left = asked.filter(({ id }) => !now.readings.some(({ check }) => check === id));
		if (left.length === 0) return now;
		const check = stream.pick(left);
		now = { ...now, readings: [...now.readings, readingOf(now.callout, check, check.under[0])] };
	}
	return now;
}

export const believed = (pack: Pack, table: EvidenceTable, { callout, readings }: Visit): Suspicion =>
	suspicion(pack, table, callout.complaint.id, readings);

/** The visit as the next action is chosen from it. */
export function standingOf({ callout, readings, at }: Visit): Standing {
	return {
		...at,
		complaint: callout.complaint,
		done: [],
		proof: 'none-due',
		taken: new Set(readings.map(({ check, demand }) => columnKey(check, demand))),
		read: readings
	};
}

/** The complaint and all that was read, a line a check; what anyone would notice in one line. */
export function visitGiven(pack: Pack, { callout, readings, at }: Visit): Given[] {
	const { demand } = callout.complaint.proves;
	const noticed = readings.filter(({ of }) => of.noticed).map((one) => `${one.of.name}: ${readingText(one, one.of)}`);
	return [
		{ name: 'The customer says', value: callout.complaintSays },
		{ name: `Noticed (${demandShort(pack, demand)})`, value: noticed.join('; ') },
		...readings
			.filter(({ of }) => !of.noticed)
			.map((one) => ({ name: one.of.way === 'ask' ? one.of.name : checkUnder(pack, one.of, one.demand), value: readingText(one, one.of) })),
		...(readings.some(({ of }) => !of.noticed && of.way !== 'ask') ? [{ name: 'Now', value: nowWords(pack, at) }] : [])
	];
}

function nowWords(pack: Pack, { demand, site }: Situation): string {
	const casing = site.has('casing-off') ? 'casing off' : 'casing on';
	const off = (['electricity', 'gas', 'water'] as const).filter((supply) => site.has(`${supply}-off`));
	return [demandShort(pack, demand), casing, off.length > 0 ? `${off.join(', ')} isolated` : 'all supplies on'].join(', ');
}
