import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { act, start } from '#shared/callout/act.ts';
import type { Action } from '#shared/callout/action.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { RefusedAction, replay } from '#shared/callout/replay.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { mostSeed } from '#shared/quantity/random.ts';
import { smallPack } from '../scenario/small-family.ts';
import { anyPath } from './any-path.ts';

const pack = smallPack();
const seeds = fc.nat({ max: mostSeed });

/** Freezes all the way down, so that a change in place throws. */
function frozen<T>(value: T): T {
	if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
		Object.freeze(value);
		Object.values(value).forEach(frozen);
	}
	return value;
}

describe('any path whatever', () => {
	it('never throws, changes nothing in place, and replays to the same state at each step', () => {
		fc.assert(
			fc.property(seeds, anyPath(pack), (seed, path) => {
				const callout = makeCallout(pack, seed);
				const done: Action[] = [];
				let state: CalloutState = frozen(start());
				for (const action of path) {
					const next = act(callout, state, action);
					if ('refused' in next) {
						expect(next.refused).toMatch(/\w/);
						continue;
					}
					state = frozen(next);
					done.push(action);
					expect(replay(makeCallout(pack, seed), done)).toEqual(state);
				}
			}),
			{ numRuns: 60 }
		);
	});

	it('adds up: minutes and money are the sums over its events', () => {
		fc.assert(
			fc.property(seeds, anyPath(pack), (seed, path) => {
				const callout = makeCallout(pack, seed);
				const state = path.reduce<CalloutState>((at, action) => {
					const next = act(callout, at, action);
					return 'refused' in next ? at : next;
				}, start());
				expect(state.minutes).toBeCloseTo(
					state.events.reduce((sum, { minutes }) => sum + minutes, 0),
					9
				);
				expect(state.spent).toBeCloseTo(
					state.events.reduce((sum, { spent }) => sum + spent, 0),
					9
				);
				expect(state.readings).toEqual(state.events.flatMap(({ readings }) => readings));
				expect(state.events.map(({ index }) => index)).toEqual([...state.events.keys()]);
			}),
			{ numRuns: 60 }
		);
	});
});

describe('a stored path that cannot have been', () => {
	it('is told by the place of the action', () => {
		const path: Action[] = [
			{ kind: 'demand', demand: 'tap' },
			{ kind: 'step', step: 'prove-dead' }
		];
		expect(() => replay(makeCallout(pack, 1), path)).toThrow(RefusedAction);
		expect(() => replay(makeCallout(pack, 1), path)).toThrow(/actions\[1\] \(step\) cannot be done there: First: Isolate the electricity/);
	});
});
