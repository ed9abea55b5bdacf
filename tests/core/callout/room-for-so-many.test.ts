import { expect, it } from 'vitest';
import { act, mostEvents, start } from '#shared/callout/act.ts';
import { action } from '#shared/callout/action.ts';
import { makeCallout } from '#shared/callout/make.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { combi } from '../../sampled.ts';

it('refuses to grow a path without end, and lets the learner leave', () => {
	const callout = makeCallout(combi, 4);
	let state: CalloutState = start();
	for (let count = 0; count < mostEvents; count++) {
		const next = act(callout, state, { kind: 'note', text: `Note ${count}.` });
		if ('refused' in next) throw new Error(next.refused);
		state = next;
	}
	for (const more of [{ kind: 'note', text: 'One more.' }, { kind: 'demand', demand: 'tap' }, { kind: 'prove' }] as const) {
		expect(act(callout, state, more)).toEqual({ refused: expect.stringMatching(new RegExp(`room for ${mostEvents} actions.*Leave`)) });
	}
	expect(act(callout, state, { kind: 'leave', told: [] })).toMatchObject({ ended: 'left' });
});

it('takes each fault named in a judgement once', () => {
	expect(action.parse({ kind: 'judge', still: ['b', 'a', 'b', 'b'] })).toEqual({ kind: 'judge', still: ['b', 'a'] });
});
