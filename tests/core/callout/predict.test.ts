import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { act, start } from '#shared/callout/act.ts';
import { action, type Action } from '#shared/callout/action.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { helpTaken, openPrediction } from '#shared/callout/prediction.ts';
import { replay } from '#shared/callout/replay.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { viewOf } from '#shared/callout/view-of.ts';
import { mostSeed } from '#shared/quantity/random.ts';
import { smallPack } from '../scenario/small-family.ts';
import { anyPath } from './any-path.ts';
import { check, demand, does, step } from './drive.ts';

const pack = smallPack();
const callout = makeCallout(pack, 3);
const [one, other, third] = pack.faults.map(({ id }) => id);
type Predict = Extract<Action, { kind: 'predict' }>;
const predict = (id: string, reads = 'lower', faults = [one!, other!]): Predict => ({
	kind: 'predict',
	check: id,
	expects: faults.map((fault) => ({ fault, reads }))
});
const refusal = (path: Action[], last: Action): string => {
	const next = act(callout, does(callout, path), last);
	return 'refused' in next ? next.refused : '';
};
/** As far as it can be played: what is refused is left out. */
function played(seed: number, path: readonly Action[]): CalloutState {
	return path.reduce<CalloutState>((at, each) => {
		const next = act(makeCallout(pack, seed), at, each);
		return 'refused' in next ? at : next;
	}, start());
}

describe('a prediction', () => {
	it('costs nothing, is kept with the demand it is for, and is told in the names of the page', () => {
		const before = does(callout, [demand('tap')]);
		const state = does(callout, [demand('tap'), predict('tap-temperature')]);
		expect([state.minutes, state.spent]).toEqual([before.minutes, before.spent]);
		expect(openPrediction(state)).toMatchObject({ event: 1, check: 'tap-temperature', demand: 'tap', observed: null, lapsed: false });
		const view = viewOf(callout, state);
		expect(view.predictions[0]!.suspects.map(({ says, would }) => `${says}: ${would}`)).toEqual(
			[0, 1].map((at) => `${pack.faults[at]!.says}: lower than sound`)
		);
		expect(view.events.at(-1)).toMatchObject({ did: 'Predicted: Tap temperature', minutes: 0 });
	});

	it('is of two or three different faults that there are, and of what the check can read', () => {
		const open = [demand('tap')];
		expect(action.safeParse(predict('tap-temperature', 'lower', [one!])).success).toBe(false);
		expect(action.safeParse(predict('tap-temperature', 'lower', [one!, other!, third!])).success).toBe(true);
		expect(action.safeParse(predict('tap-temperature', 'lower', [one!, other!, third!, one!])).success).toBe(false);
		expect(refusal(open, predict('tap-temperature', 'lower', [one!, one!]))).toContain('twice');
		expect(refusal(open, predict('tap-temperature', 'lower', [one!, 'no-such']))).toContain('no fault "no-such"');
		expect(refusal(open, predict('no-such'))).toContain('no check "no-such"');
		expect(refusal(open, predict('tap-feel'))).toContain('does not read "lower"');
		const { words } = pack.checks.find(({ id }) => id === 'tap-feel')!;
		for (const reads of [...words!.map(({ word }) => word), 'cannot-tell'])
			expect(refusal(open, predict('tap-feel', reads))).toContain('already');
	});

	it('is refused where the check cannot be taken, and while another waits for its reading', () => {
		expect(refusal([], predict('element-ohms'))).toContain('casing must be off');
		expect(refusal([demand('tap'), predict('tap-temperature')], predict('tap-feel', 'cannot-tell'))).toContain('waits for its reading');
		expect(refusal([demand('tap'), check('tap-temperature')], predict('tap-temperature'))).toContain('read so already');
		expect(refusal([demand('tap')], predict('tap-feel', 'cannot-tell')), 'noticed with the demand').toContain('read so already');
	});

	it('is observed by its check, and lapses once the learner goes on to something else', () => {
		const said: Action[] = [demand('tap'), predict('tap-temperature')];
		const last = (...more: Action[]) => does(callout, [...said, ...more]).predictions.at(-1);
		expect(last(check('tap-temperature'))).toMatchObject({ observed: 2, lapsed: false });
		expect(
			last({ kind: 'note', text: 'first' }, { kind: 'judge', still: [] }, step('open-casing'), check('tap-temperature'))
		).toMatchObject({
			observed: 5
		});
		for (const away of [check('tap-feel'), demand('none')]) {
			expect(last(away)).toMatchObject({ observed: null, lapsed: true });
			expect(last(away, demand('tap'), check('tap-temperature'))).toMatchObject({ observed: null, lapsed: true });
		}
	});

	it('counts as help once it was observed, and not before', () => {
		const said: Action[] = [demand('tap'), predict('tap-temperature')];
		expect(helpTaken(does(callout, [demand('tap'), check('tap-temperature')]))).toBe(false);
		expect(helpTaken(does(callout, said))).toBe(false);
		expect(helpTaken(does(callout, [...said, check('tap-feel'), check('tap-temperature')]))).toBe(false);
		expect(helpTaken(does(callout, [...said, check('tap-temperature')]))).toBe(true);
		expect(helpTaken(viewOf(callout, does(callout, [...said, check('tap-temperature')])))).toBe(true);
	});
});

describe('any path with predictions', () => {
	const seeds = fc.nat({ max: mostSeed });

	it('brings the readings, minutes and work of the same path without them', () => {
		let predicted = 0;
		fc.assert(
			fc.property(seeds, anyPath(pack), (seed, path) => {
				const coached = path.flatMap((each): Action[] => (each.kind === 'check' ? [predict(each.check, 'cannot-tell'), each] : [each]));
				const whole = played(seed, coached);
				const done = whole.events.map((event) => event.action);
				const bare = replay(
					makeCallout(pack, seed),
					done.filter(({ kind }) => kind !== 'predict')
				);
				predicted += whole.predictions.length;
				// The places in the path are others, and nothing else is.
				const asRead = (state: CalloutState) => state.readings.map((reading) => ({ ...reading, event: 0 }));
				const asDone = (state: CalloutState) => state.remedies.map((remedy) => ({ ...remedy, event: 0 }));
				expect(asRead(whole)).toEqual(asRead(bare));
				expect(asDone(whole)).toEqual(asDone(bare));
				for (const key of ['minutes', 'spent', 'site', 'demand', 'cured', 'ended', 'told', 'fetched'] as const) {
					expect(whole[key]).toEqual(bare[key]);
				}
			}),
			{ numRuns: 200 }
		);
		expect(predicted).toBeGreaterThan(50);
	});

	it('is the same when it is played again, with at most one prediction waiting', () => {
		fc.assert(
			fc.property(seeds, anyPath(pack), (seed, path) => {
				const whole = played(seed, path);
				const again = replay(
					makeCallout(pack, seed),
					whole.events.map((event) => event.action)
				);
				expect(again).toEqual(whole);
				const waiting = whole.predictions.filter(({ observed, lapsed }) => observed === null && !lapsed);
				expect(waiting.length).toBeLessThanOrEqual(1);
			}),
			{ numRuns: 100 }
		);
	});
});
