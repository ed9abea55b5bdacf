/**
 * What it takes to get something done from where the visit stands: the steps that open up, isolate or restore, the demand, the
 * instrument from the van, the doing. A plan is a list of actions that the callout accepts.
 */
import type { Demand } from '#shared/appliance/model.ts';
import type { Action } from '#shared/callout/action.ts';
import { priceOf } from '#shared/callout/act-work.ts';
import { needsOfCheck } from '#shared/callout/needs.ts';
import { fetching } from '#shared/callout/van.ts';
import type { Pack, Remedy } from '#shared/scenario/pack.ts';
import type { Check, Complaint, SafeStep, SiteState } from '#shared/scenario/schema.ts';
import { openingSite, supplies, undone } from '#shared/scenario/site.ts';

/** Where a visit stands, as far as cost goes. */
export interface Situation {
	readonly demand: Demand;
	readonly site: ReadonlySet<SiteState>;
	readonly fetched: ReadonlySet<string>;
}

export interface Plan {
	readonly actions: readonly Action[];
	readonly minutes: number;
	/** Parts and materials [currency]. */
	readonly spent: number;
	readonly after: Situation;
}

interface Way {
	readonly steps: readonly SafeStep[];
	/** Where each of the steps stands in the rules. */
	readonly order: readonly number[];
	readonly minutes: number;
	readonly site: ReadonlySet<SiteState>;
}

const ways = new WeakMap<Pack, Map<string, Way | null>>();
const siteKey = (site: Iterable<SiteState>) => [...site].sort().join();

/** The quickest steps from a site to one where all these states hold; null where no steps lead there. */
function wayTo(pack: Pack, site: ReadonlySet<SiteState>, needs: readonly SiteState[]): Way | null {
	if (needs.every((need) => site.has(need))) return { steps: [], order: [], minutes: 0, site };
	let known = ways.get(pack);
	if (!known) ways.set(pack, (known = new Map()));
	const key = `${siteKey(site)}>${siteKey(needs)}`;
	let way = known.get(key);
	if (way === undefined) known.set(key, (way = searchWay(pack.rules.steps, site, needs)));
	return way;
}

/**
 * Dijkstra's search over sites; there are at most a few dozen. Of ways as quick as each other the one in the order of the rules, which is
 * that of safe work: dead before it is opened, filled before it is live, closed last.
 */
function searchWay(steps: readonly SafeStep[], from: ReadonlySet<SiteState>, needs: readonly SiteState[]): Way | null {
	const open: Way[] = [{ steps: [], order: [], minutes: 0, site: from }];
	const seen = new Set<string>();
	while (open.length > 0) {
		open.sort((a, b) => a.minutes - b.minutes || a.steps.length - b.steps.length || byOrder(a.order, b.order));
		const here = open.shift()!;
		if (needs.every((need) => here.site.has(need))) return here;
		const key = siteKey(here.site);
		if (seen.has(key)) continue;
		seen.add(key);
		for (const [at, step] of steps.entries()) {
			if (!step.needs.every((need) => here.site.has(need))) continue;
			const site = new Set(here.site);
			for (const set of step.sets) {
				for (const gone of undone[set]) site.delete(gone);
				site.add(set);
			}
			open.push({ steps: [...here.steps, step], order: [...here.order, at], minutes: here.minutes + step.minutes, site });
		}
	}
	return null;
}

/** Of two ways with as many steps, the one whose steps come earlier in the rules. */
function byOrder(a: readonly number[], b: readonly number[]): number {
	const apart = a.findIndex((at, index) => at !== b[index]);
	return apart < 0 ? 0 : a[apart] - b[apart];
}

/** Goes to a site where the states hold; a demand stops when a supply goes off. */
function goTo(pack: Pack, from: Situation, needs: readonly SiteState[]): Plan | null {
	const way = wayTo(pack, from.site, needs);
	if (!way) return null;
	const runs = supplies.every((supply) => way.site.has(supply));
	const cut = way.steps.some((step) => step.sets.some((state) => supplies.some((supply) => undone[state].includes(supply))));
	return {
		actions: way.steps.map((step) => ({ kind: 'step', step: step.id })),
		minutes: way.minutes,
		spent: 0,
		after: { ...from, site: way.site, demand: runs && !cut ? from.demand : 'none' }
	};
}

/** Plans one after the other. */
function joined(first: Plan, then: Plan): Plan {
	return {
		actions: [...first.actions, ...then.actions],
		minutes: first.minutes + then.minutes,
		spent: first.spent + then.spent,
		after: then.after
	};
}

/** Sets a demand, with all supplies on where it runs anything. */
export function planDemand(pack: Pack, from: Situation, demand: Demand, needs: readonly SiteState[] = []): Plan | null {
	const there = goTo(pack, from, demand === 'none' ? needs : [...new Set([...needs, ...supplies])]);
	const offered = pack.family.demands.find((d) => d.id === demand);
	if (!there || !offered) return null;
	if (there.after.demand === demand) return there;
	const set: Plan = { actions: [{ kind: 'demand', demand }], minutes: offered.minutes, spent: 0, after: { ...there.after, demand } };
	return joined(there, set);
}

/** Takes a check under a demand; null where that cannot be done. */
export function planCheck(pack: Pack, from: Situation, check: Check, demand: Demand): Plan | null {
	const ready = planDemand(pack, from, demand, needsOfCheck(check));
	if (!ready || !check.under.includes(demand) || !needsOfCheck(check).every((need) => ready.after.site.has(need))) return null;
	const { fetched, minutes } = fetching(pack, ready.after.fetched, [check]);
	return joined(ready, {
		actions: [{ kind: 'check', check: check.id }],
		minutes: check.minutes + minutes,
		spent: 0,
		after: { ...ready.after, fetched }
	});
}

/** Does a remedy, made safe first; the sureness is for whoever follows the plan to say. */
export function planRemedy(pack: Pack, from: Situation, remedy: Remedy): Plan | null {
	const ready = goTo(pack, from, remedy.needs);
	if (!ready) return null;
	return joined(ready, {
		actions: [{ kind: 'remedy', remedy: remedy.id, sure: 'proved' }],
		minutes: remedy.minutes,
		spent: priceOf(remedy),
		after: ready.after
	});
}

/** Checks that must follow work that disturbed these things. */
function checksAfter(pack: Pack, disturbs: Iterable<Remedy['disturbs'][number]>): readonly Check[] {
	const ids = new Set([...disturbs].flatMap((kind) => pack.rules.after[kind] ?? []));
	return pack.checks.filter((check) => ids.has(check.id));
}

/** Proves the repair under the demand complained of, with everything restored. */
export function planProof(pack: Pack, from: Situation, complaint: Complaint): Plan | null {
	const ready = goTo(pack, from, openingSite);
	if (!ready) return null;
	const checks = pack.checks.filter((check) => complaint.proves.checks.includes(check.id));
	const { fetched, minutes } = fetching(pack, ready.after.fetched, checks);
	return joined(ready, {
		actions: [{ kind: 'prove' }],
		minutes: pack.rules.proveMinutes + minutes,
		spent: 0,
		after: { ...ready.after, fetched, demand: complaint.proves.demand }
	});
}

/** These checks, the one that is quickest from where things stand first. */
export function planChecks(pack: Pack, from: Situation, checks: readonly Check[]): Plan {
	let plan: Plan = { actions: [], minutes: 0, spent: 0, after: from };
	const due = new Set(checks);
	while (due.size > 0) {
		const ways = [...due].flatMap((check) =>
			check.under.flatMap((demand) => {
				const way = planCheck(pack, plan.after, check, demand);
				return way ? [{ check, way }] : [];
			})
		);
		const quickest = ways.sort((a, b) => a.way.minutes - b.way.minutes)[0];
		if (!quickest) break;
		plan = joined(plan, quickest.way);
		due.delete(quickest.check);
	}
	return plan;
}

/** The checks that must follow disturbing work. */
export const planAfterChecks = (pack: Pack, from: Situation, disturbs: Iterable<Remedy['disturbs'][number]>): Plan =>
	planChecks(pack, from, checksAfter(pack, disturbs));

/** A remedy with all that belongs to it: made safe, done, checked after, proved. */
export function planRepair(pack: Pack, from: Situation, remedy: Remedy, complaint: Complaint): Plan | null {
	const done = planRemedy(pack, from, remedy);
	if (!done) return null;
	const checked = joined(done, planAfterChecks(pack, done.after, remedy.disturbs));
	const proof = planProof(pack, checked.after, complaint);
	return proof ? joined(checked, proof) : null;
}

/** Leaves with everything restored. */
export function planLeave(pack: Pack, from: Situation, told: readonly string[]): Plan | null {
	const ready = goTo(pack, from, openingSite);
	if (!ready) return null;
	return joined(ready, {
		actions: [{ kind: 'leave', told: [...told] }],
		minutes: pack.rules.leaveMinutes,
		spent: 0,
		after: ready.after
	});
}

/** What a plan costs [currency]. */
export const costOf = (pack: Pack, plan: Pick<Plan, 'minutes' | 'spent'>): number =>
	(plan.minutes * pack.rules.labourPerHour) / 60 + plan.spent;
