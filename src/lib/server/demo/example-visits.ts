/** An invented learner with a few finished callouts, so that a new server has something to show. Played through the service, never written in. */
import { eq } from 'drizzle-orm';
import type { Action } from '#shared/callout/action.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Fault, SiteState } from '#shared/scenario/schema.ts';
import { openingSite } from '#shared/scenario/site.ts';
import { addLearner } from '../accounts/index.ts';
import type { Callouts } from './callouts.ts';
import type { RunningCallout } from './outcomes.ts';
import type { Database } from '../database/open.ts';
import { learner } from '../database/schema.ts';

/** Invented visits: the manner, and the number of the fault in order of how often it is met. */
const visits = [
	{ seed: 101, rank: 0, guessesFirst: false },
	{ seed: 102, rank: 1, guessesFirst: true },
	{ seed: 103, rank: 2, guessesFirst: false }
];

/** Plays the invented visits of each family, once a database. */
export function seedDemo(db: Database, service: Callouts, packs: ReadonlyMap<string, Pack>): void {
	if (inventedLearner(db)) return;
	db.$client.transaction(() => {
		const { id } = addLearner({ guest: false, invented: true }, db);
		for (const pack of packs.values()) {
			const faults = pack.faults.toSorted((a, b) => b.weight - a.weight || a.id.localeCompare(b.id));
			for (const { seed, rank, guessesFirst } of visits) {
				const [fault, other] = [faults[rank]!, faults[rank + visits.length]!];
				const started = service.start(id, { family: pack.family.id, seed, fault: fault.id });
				if (started.outcome === 'started') play(service, id, pack, started.attemptId, guessesFirst ? [other, fault] : [fault]);
			}
		}
	})();
}

/** The id of the invented learner, once the demo has been played. */
export function inventedLearner(db: Database): string | undefined {
	return db.select({ id: learner.id }).from(learner).where(eq(learner.invented, true)).get()?.id;
}

/** One visit: the checks of each suspect's area with the tap running, its remedy made safe and done, the proof, the last checks, the advice. */
function play(service: Callouts, learnerId: string, pack: Pack, attemptId: string, suspects: readonly Fault[]): void {
	let at: RunningCallout = service.load(attemptId, learnerId)!;
	const does = (action: Action): void => {
		const acted = service.act(attemptId, learnerId, action, at.seq);
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
		for (const check of pack.checks.filter((one) => one.area === area && one.under.includes('tap') && one.needs.length === 0).slice(0, 3)) {
			does({ kind: 'check', check: check.id });
		}
		const remedy = pack.remedies.find(({ id }) => id === cured[0])!;
		bring(remedy.needs);
		does({ kind: 'remedy', remedy: remedy.id, sure: turn < suspects.length - 1 ? 'guess' : 'likely' });
		bring(openingSite);
		for (const id of remedy.disturbs.flatMap((disturbed) => pack.rules.after[disturbed] ?? [])) {
			const check = pack.checks.find((one) => one.id === id)!;
			bring(check.needs);
			if (!check.under.includes(at.view.demand)) does({ kind: 'demand', demand: check.under[0]! });
			does({ kind: 'check', check: id });
		}
		bring(openingSite);
		does({ kind: 'prove' });
	}
	does({ kind: 'leave', told: suspects.at(-1)!.advise });
}
