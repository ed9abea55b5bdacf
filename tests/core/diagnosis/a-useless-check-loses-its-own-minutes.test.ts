/** A check that shows nothing costs what it takes: afterwards everything is as it was, and the best action is still open. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { act, start } from '#shared/callout/act.ts';
import type { Action } from '#shared/callout/action.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { makeCallout } from '#shared/callout/make.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { beliefAfter, standingOf } from '#shared/diagnosis/belief.ts';
import { dearerFrom } from '#shared/diagnosis/carry-on.ts';
import { looksOwed } from '#shared/diagnosis/looks.ts';
import { nextActions, regret } from '#shared/diagnosis/next-action.ts';
import { costOf, planCheck } from '#shared/diagnosis/plan.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { stock } from '../../sampled.ts';

const does = (callout: Callout, from: CalloutState, actions: readonly Action[]): CalloutState =>
	actions.reduce((at, action) => {
		const next = act(callout, at, action);
		return 'refused' in next ? at : next;
	}, from);

describe.each(stock)('$id', ({ pack }) => {
	it('loses by no check more than its own time, access and what it disturbs, at any belief on the way', async () => {
		const table = await evidenceFor(pack);
		const cost = (minutes: number) => costOf(pack, { minutes, spent: 0 });
		let open = 0;
		fc.assert(
			fc.property(fc.integer({ min: 0, max: 1_000_000 }), fc.nat(), fc.array(fc.nat(), { maxLength: 3 }), (seed, cut, strays) => {
				const callout = makeCallout(pack, seed);
				const sound = soundPath(callout, table);
				// Part of a sound path, then a few checks that nothing called for.
				let state = does(callout, start(), sound.actions.slice(0, 1 + (cut % sound.actions.length)));
				if (state.ended !== null) return;
				for (const stray of strays) {
					const check = pack.checks[stray % pack.checks.length];
					const plan = planCheck(pack, state, check, check.under[stray % check.under.length]);
					state = does(callout, state, plan?.actions ?? []);
				}
				const standing = standingOf(callout, state);
				const valued = nextActions(pack, table, beliefAfter(callout, state, table, state.events.length), standing);
				const dearer = dearerFrom(pack, standing, callout.complaint, valued[0].choice);
				for (const { choice, plan } of valued) {
					const check = choice.kind === 'check' && pack.checks.find(({ id }) => id === choice.check);
					const more = dearer(plan.after);
					if (!check || more === null) continue;
					const due = new Set(check.disturbs.flatMap((kind) => pack.rules.after[kind] ?? []));
					const checkedAfter = pack.checks.reduce((sum, { id, minutes }) => sum + (due.has(id) ? minutes : 0), 0);
					// A look that takes no time still takes a minute's attention.
					const own = Math.max(cost(1), costOf(pack, plan)) + cost(checkedAfter) + more;
					expect(regret(valued, choice), `${seed} ${choice.kind} ${check.id}`).toBeLessThanOrEqual(own + 1e-9);
					open++;
				}
			}),
			{ numRuns: 8, seed: 11 }
		);
		expect(open).toBeGreaterThan(100);
	}, 240_000);

	it('names a look, not the remedy it is for, while nothing that was read shows what the remedy is for', async () => {
		const table = await evidenceFor(pack);
		let looks = 0;
		for (let seed = 300; seed < 306; seed++) {
			const callout = makeCallout(pack, seed);
			const { actions } = soundPath(callout, table);
			const first = actions.findIndex(({ kind }) => kind === 'remedy');
			for (let length = 1; length <= first; length++) {
				const state = does(callout, start(), actions.slice(0, length));
				const standing = standingOf(callout, state);
				const belief = beliefAfter(callout, state, table, state.events.length);
				const [best] = nextActions(pack, table, belief, standing);
				if (best.choice.kind !== 'remedy') {
					looks++;
					continue;
				}
				const { remedy } = best.choice;
				const owed = looksOwed(pack, table, standing, belief);
				expect(owed.has(remedy), `${seed}: ${remedy}`).toBe(false);
			}
		}
		expect(looks).toBeGreaterThan(6);
	}, 240_000);
});
