/** Setting a demand, taking a check, and the steps that open up, isolate and restore. */
import type { Demand } from '#shared/appliance/model.ts';
import type { Check, SiteState } from '#shared/scenario/schema.ts';
import { supplies, undone } from '#shared/scenario/site.ts';
import type { Callout } from './callout.ts';
import { follow } from './follow.ts';
import { breachesOf, needsOfCheck, notSafe, standsInTheWay } from './needs.ts';
import type { Action } from './action.ts';
import { stopMinutes, stopped, type Outcome } from './outcome.ts';
import { ohmsOnLive, setByHand, takeAsSet, type AsSet } from './setting.ts';
import type { CalloutState, Reading, Refusal } from './state.ts';
import { takeCheck } from './take-check.ts';
import { fetching, without } from './van.ts';

/** Sets what is asked of the appliance, waits until it has steadied, and returns what anyone would notice. */
export function setDemand(callout: Callout, state: CalloutState, demand: Demand): Outcome | Refusal {
	const { pack } = callout;
	const offered = pack.family.demands.find(({ id }) => id === demand);
	if (!offered) return { refused: `This appliance offers no demand "${demand}".` };
	const inTheWay = demand === 'none' ? [] : standsInTheWay(pack, supplies, state.site);
	if (inTheWay.length > 0) return { refused: inTheWay.join(' ') };
	const noticed = pack.checks.filter(
		(check) => check.noticed && check.under.includes(demand) && needsOfCheck(check).every((need) => state.site.has(need))
	);
	return {
		minutes: offered.minutes,
		readings: takeReadings(callout, state, noticed, demand, offered.minutes),
		changes: { demand }
	};
}

const blownFuse = "The meter's own fuse has blown: it shows nothing on any range. There is another meter in the van.";
type CheckAction = Extract<Action, { kind: 'check' }>;

export function takeOneCheck(callout: Callout, state: CalloutState, action: CheckAction): Outcome | Refusal {
	const { pack } = callout;
	const check = pack.checks.find(({ id }) => id === action.check);
	if (!check) return { refused: `There is no check "${action.check}" on this appliance.` };
	const { range, terminals } = action;
	const set = range === undefined && terminals === undefined ? null : setByHand(callout, check, { range, terminals });
	if (set && 'refused' in set) return set;
	const inTheWay = wayOfCheck(callout, state, check);
	if (inTheWay.length > 0) return { refused: inTheWay.join(' ') };
	const breaches = breachesOf({ needs: check.needs, disturbs: [] }, state.site);
	if (breaches.length > 0) return stopped(pack, breaches, notSafe(check.needs, state.site));
	const { minutes, fetched } = fetching(pack, state.fetched, [check]);
	const live = set && ohmsOnLive(callout, check, set, state);
	if (live?.onLive) {
		const stop = stopped(pack, ['meter-on-live-circuit'], ['electricity-off']);
		return {
			...stop,
			minutes: stopMinutes + minutes,
			says: [...(stop.says ?? []), ...(live.blown ? [blownFuse] : [])],
			changes: { ...stop.changes, fetched: live.blown ? without(pack, fetched, check) : fetched }
		};
	}
	return {
		minutes: check.minutes + minutes,
		readings: takeReadings(callout, state, [check], state.demand, check.minutes + minutes, set),
		changes: { fetched }
	};
}

/** What must be done before a check can be taken, in words; safety aside. */
export function wayOfCheck({ pack }: Callout, state: CalloutState, check: Check): string[] {
	const site = standsInTheWay(pack, needsOfCheck(check), state.site);
	if (check.under.includes(state.demand)) return site;
	const names = check.under.map((demand) => pack.family.demands.find(({ id }) => id === demand)?.name ?? demand);
	return [...site, `It is taken with ${names.map((name) => `"${name}"`).join(' or ')}: set that first.`];
}

export function doStep(callout: Callout, state: CalloutState, id: string): Outcome | Refusal {
	const { pack } = callout;
	const step = pack.rules.steps.find((other) => other.id === id);
	if (!step) return { refused: `The rules have no step "${id}".` };
	if (step.sets.every((set) => state.site.has(set))) return { refused: 'That is so already.' };
	const unmet = step.needs.filter((need) => !state.site.has(need));
	if (unmet.length > 0) return { refused: stepsFirst(callout, unmet).join(' ') };
	const site = new Set(state.site);
	for (const set of step.sets) {
		for (const gone of undone[set]) site.delete(gone);
		site.add(set);
	}
	const stillRuns = supplies.every((supply) => site.has(supply));
	return {
		minutes: step.minutes,
		says: [step.how],
		changes: { site, demand: stillRuns ? state.demand : 'none' }
	};
}

/** A step's own needs are told whatever they are: there is nothing to be caught out by in doing things in order. */
export function stepsFirst({ pack }: Callout, states: readonly SiteState[]): string[] {
	return states.map((state) => `First: ${pack.rules.steps.find(({ sets }) => sets.includes(state))?.name ?? state}.`);
}

/** Readings of several checks at the end of an action that takes `minutes`; `set` is how the instrument of the only one was set by hand. */
export function takeReadings(
	callout: Callout,
	state: CalloutState,
	checks: readonly Check[],
	demand: Demand,
	minutes: number,
	set: AsSet | null = null
): readonly Reading[] {
	const after = state.remedies.map(({ remedy }) => remedy);
	return checks.map((check) => {
		const occasion = state.readings.filter((reading) => reading.check === check.id && reading.demand === demand).length;
		const taking = { demand, cured: state.cured, occasion };
		const shown = set ? takeAsSet(callout, check, set, taking) : { ...takeCheck(callout, check, taking), unit: check.unit };
		const trace = follow(callout.pack, state.cured ? callout.sound : callout.faulty, check, demand);
		const taken = {
			event: state.events.length,
			check: check.id,
			demand,
			...shown,
			minute: state.minutes + minutes,
			after
		};
		return trace ? { ...taken, trace } : taken;
	});
}
