import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { act, start } from '#shared/callout/act.ts';
import type { Action } from '#shared/callout/action.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { replay } from '#shared/callout/replay.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { viewOf } from '#shared/callout/view-of.ts';
import { mostSeed } from '#shared/quantity/random.ts';
import { anyPath } from './any-path.ts';
import { packs } from './combi-pack.ts';

describe.each([...packs])('any path on %s', (_, pack) => {
	it('never crashes, replays to the same view, and shows nothing that stays hidden', () => {
		fc.assert(
			fc.property(fc.nat({ max: mostSeed }), anyPath(pack, 30), (seed, path) => {
				const callout = makeCallout(pack, seed);
				const done: Action[] = [];
				let state: CalloutState = start();
				for (const action of path) {
					const next = act(callout, state, action);
					if ('refused' in next) continue;
					state = next;
					done.push(action);
				}
				const view = viewOf(callout, state);
				expect(viewOf(makeCallout(pack, seed), replay(makeCallout(pack, seed), done))).toEqual(view);
				const text = JSON.stringify(view);
				for (const key of ['seed', 'severity', 'cured', 'fault', 'because', 'sound', 'faulty', 'facts'])
					expect(text).not.toContain(`"${key}":`);
				for (const reading of view.readings) expect(reading.text).not.toMatch(/NaN|undefined|infinite/);
			}),
			{ numRuns: 40 }
		);
	});

	it('takes every check of every fault at its worst without a crash', () => {
		for (const [index, fault] of pack.faults.entries()) {
			const callout = makeCallout(pack, index, fault.id);
			let state = start();
			const site = ['open-casing', 'isolate-electricity', 'prove-dead', 'isolate-gas', 'isolate-water'].map((step): Action => ({
				kind: 'step',
				step
			}));
			const live = pack.family.demands.flatMap(({ id }): Action[] => [
				{ kind: 'demand', demand: id },
				...pack.checks.map(({ id: check }): Action => ({ kind: 'check', check }))
			]);
			const dead = pack.checks.map(({ id: check }): Action => ({ kind: 'check', check }));
			for (const action of [site[0]!, ...live, { kind: 'demand', demand: 'none' } as const, ...site.slice(1), ...dead]) {
				const next = act(callout, state, action);
				if (!('refused' in next)) state = next;
			}
			const taken = new Set(state.readings.map(({ check }) => check));
			expect(pack.checks.map(({ id }) => id).filter((id) => !taken.has(id))).toEqual([]);
		}
	});
});
