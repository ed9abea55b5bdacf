/** Invented visits, played through the service and never written in: so that a new server has something to show. */
import type { Action } from '#shared/callout/action.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Fault, SiteState } from '#shared/scenario/schema.ts';
import { openingSite } from '#shared/scenario/site.ts';
import type { Callouts } from '../callouts/callouts.ts';
import type { RunningCallout } from '../callouts/outcomes.ts';

/** How a visit goes. */
export interface Manner {
	/** What is suspected, the fault itself last: for each its checks, and its remedy. */
	readonly suspects: readonly Fault[];
	/** Checks of each suspect's area. */
	readonly checks: number;
	/** Begins the work with nothing made safe, which is stopped. */
	readonly isCareless?: boolean;
	/** Whether the repair is proved, and the customer told. */
	readonly proves: boolean;
	readonly tells: boolean;
	/** The time of the next action [ms since 1970]. */
	readonly clock: () => number;
}

/** Visits of the example: the manner, and the number of the fault in order of how often it is met. */
const examples = [
	{ seed: 101, rank: 0, guessesFirst: false },
	{ seed: 102, rank: 1, guessesFirst: true },
	{ seed: 103, rank: 2, guessesFirst: false }
];

/** Plays the example visits of one family. */
export function playExamples(service: Callouts, learnerId: string, pack: Pack): void {
	const faults = pack.faults.toSorted((a, b) => b.weight - a.weight || a.id.localeCompare(b.id));
	for (const { seed, rank, guessesFirst } of examples) {
		const [fault, other] = [faults[rank]!, faults[rank + examples.length]!];
		const started = service.start(learnerId, { family: pack.family.id, seed, fault: fault.id });
		const suspects = guessesFirst ? [other, fault] : [fault];
		const manner = { suspects, checks: 3, proves: true, tells: true, clock: () => Date.now() };
		if (started.outcome === 'started') playVisit(service, learnerId, pack, started.attemptId, manner);
	}
}

/** One visit: the checks of each suspect's area with the tap running, its remedy made safe and done, the proof, the last checks, the advice. */
export function playVisit(service: Callouts, learnerId: string, pack: Pack, attemptId: string, manner: Manner): void {
	const { suspects, checks, isCareless = false, proves, tells, clock } = manner;
	let at: RunningCallout = service.load(attemptId, learnerId)!;
	const does = (action: Action): void => {
		const acted = service.act(attemptId, learnerId, action, at.seq, clock());
		if ('view' in acted) at = acted;
	};
	const bring = (states: readonly SiteState[]): void => {
		for (const state of states.filter((one) => !at.view.site.includes(one))) {
			const step = pack.rules.steps.find(({ sets }) => sets.includes(state));
			if (!step) continue;
			bring(step.needs);
			does({ kind: 'step', step: step.id });
		}
	};

	for (const [turn, { area, cured }] of suspects.entries()) {
		bring(openingSite);
		does({ kind: 'demand', demand: 'tap' });
		const telling = pack.checks.filter((one) => one.area === area && one.under.includes('tap') && one.needs.length === 0);
		for (const check of telling.slice(0, checks)) does({ kind: 'check', check: check.id });
		const remedy = pack.remedies.find(({ id }) => id === cured[0])!;
		bring(isCareless ? remedy.needs.filter((state) => state === 'casing-off') : remedy.needs);
		does({ kind: 'remedy', remedy: remedy.id, sure: turn < suspects.length - 1 ? 'guess' : 'likely' });
		bring(openingSite);
		for (const id of remedy.disturbs.flatMap((disturbed) => pack.rules.after[disturbed] ?? [])) {
			const check = pack.checks.find((one) => one.id === id)!;
			bring(check.needs);
			if (!check.under.includes(at.view.demand)) does({ kind: 'demand', demand: check.under[0]! });
			does({ kind: 'check', check: id });
		}
		bring(openingSite);
		if (proves) does({ kind: 'prove' });
	}
	does({ kind: 'leave', told: tells ? suspects.at(-1)!.advise : [] });
}
