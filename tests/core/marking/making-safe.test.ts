/** What the work that follows needs is not a detour, in whatever order it is taken. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { act, start } from '#shared/callout/act.ts';
import type { Action } from '#shared/callout/action.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { makeCallout } from '#shared/callout/make.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { beliefAfter, standingOf } from '#shared/diagnosis/belief.ts';
import { nextActions } from '#shared/diagnosis/next-action.ts';
import { planRemedy } from '#shared/diagnosis/plan.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import { debrief } from '#shared/marking/debrief.ts';
import { judgePath } from '#shared/marking/judged-path.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { stock } from '../../sampled.ts';

function does(callout: Callout, from: CalloutState, actions: readonly Action[]): CalloutState {
	return actions.reduce((at, action) => {
		const next = act(callout, at, action);
		if ('refused' in next) throw new Error(`${JSON.stringify(action)}: ${next.refused}`);
		return next;
	}, from);
}

describe.each(stock)('$id', ({ pack }) => {
	it('bills no step that a remedy needs, taken just before it, where that remedy is the best action', async () => {
		const table = await evidenceFor(pack);
		let steps = 0;
		fc.assert(
			fc.property(fc.integer({ min: 0, max: 1_000_000 }), fc.nat(), fc.boolean(), (seed, cut, backwards) => {
				const callout = makeCallout(pack, seed);
				const sound = soundPath(callout, table);
				// Any length of the sound path before its first remedy is a place from which some remedy may be the best.
				const before = sound.state.remedies[0]?.event ?? 1;
				let state = does(callout, start(), sound.actions.slice(0, 1 + (cut % before)));
				while (state.events.at(-1)?.action.kind === 'step') state = does(callout, start(), sound.actions.slice(0, state.events.length - 1));
				const belief = beliefAfter(callout, state, table, state.events.length);
				const standing = standingOf(callout, state);
				const best = nextActions(pack, table, belief, standing)[0].choice;
				if (best.kind !== 'remedy') return;
				const plan = planRemedy(
					pack,
					standing,
					pack.remedies.find(({ id }) => id === best.remedy)!
				)!;
				const first = state.events.length;
				const made = does(callout, state, backwards ? reordered(plan.actions) : plan.actions);
				for (const { event, regret } of judgePath(callout, made, table).events.slice(first)) {
					expect(regret, `${seed}: ${JSON.stringify(event.action)}`).toBe(0);
					if (event.action.kind === 'step') steps++;
				}
			}),
			{ numRuns: 12, seed: 4 }
		);
		expect(steps).toBeGreaterThan(8);
	});
});

/** The steps the other way round, the electricity still isolated before it is proved dead; the remedy last. */
function reordered(actions: readonly Action[]): Action[] {
	const turned = [...actions.slice(0, -1).toReversed(), ...actions.slice(-1)];
	const at = (step: string) => turned.findIndex((action) => action.kind === 'step' && action.step === step);
	const [dead, isolated] = [at('prove-dead'), at('isolate-electricity')];
	if (dead >= 0 && isolated > dead) [turned[dead], turned[isolated]] = [turned[isolated], turned[dead]];
	return turned;
}

const [plate] = stock;
/** A rotor that sticks, proved at its indicator. */
const path = ['isolate-electricity', 'prove-dead', 'isolate-water'].map((step): Action => ({ kind: 'step', step }));
const seen: Action[] = [
	{ kind: 'demand', demand: 'tap' },
	{ kind: 'step', step: 'open-casing' },
	{ kind: 'check', check: 'look-turbine-indicator' }
];
const clean: Action = { kind: 'remedy', remedy: 'clean-turbine', sure: 'proved' };

describe('making safe', () => {
	it('for the turbine that is then cleaned loses nothing', async () => {
		const callout = makeCallout(plate.pack, 1_930_956_514, 'turbine-sticking');
		const judged = judgePath(callout, does(callout, start(), [...seen, ...path, clean]), await evidenceFor(plate.pack)).events;
		expect(judged.slice(seen.length, -1).map(({ regret }) => regret)).toEqual([0, 0, 0]);
	});

	it('for work that was not worth it is billed with the work, not with the steps', async () => {
		const callout = makeCallout(plate.pack, 1_930_956_514, 'turbine-sticking');
		const before = does(callout, start(), seen);
		const fan = planRemedy(
			plate.pack,
			before,
			plate.pack.remedies.find(({ id }) => id === 'fit-fan')!
		)!.actions;
		const judged = judgePath(callout, does(callout, before, fan), await evidenceFor(plate.pack)).events.slice(seen.length);
		expect(judged.length).toBeGreaterThan(2);
		expect(judged.slice(0, -1).map(({ regret }) => regret)).toEqual(judged.slice(0, -1).map(() => 0));
		expect(judged.at(-1)!.regret).toBeGreaterThan(20);
	});

	it('that was left out names no better choice, and says that it was left out', async () => {
		const callout = makeCallout(plate.pack, 1_930_956_514, 'turbine-sticking');
		const state = does(callout, start(), [...seen, clean]);
		const table = await evidenceFor(plate.pack);
		expect(judgePath(callout, state, table).events.at(-1)).toMatchObject({ regret: 1, best: null });
		expect(debrief(callout, state, table).path.at(-1)).toMatchObject({ stopped: true, best: null });
	});

	it('that nothing needs is a detour still', async () => {
		const callout = makeCallout(plate.pack, 1_930_956_514, 'turbine-sticking');
		const gas: Action[] = [{ kind: 'step', step: 'isolate-gas' }, ...path, clean];
		const judged = judgePath(callout, does(callout, start(), [...seen, ...gas]), await evidenceFor(plate.pack)).events;
		expect(judged[seen.length].regret).toBeGreaterThan(0);
	});
});
