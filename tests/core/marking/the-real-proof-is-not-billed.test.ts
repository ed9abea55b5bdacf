/** A stiff flow switch, looked at with the tap fully open, where it reads as a sound one does, and then where it shows. */
import { describe, expect, it } from 'vitest';
import { planCheck } from '#shared/diagnosis/plan.ts';
import { act, start } from '#shared/callout/act.ts';
import type { Callout } from '#shared/callout/callout.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import type { Demand } from '#shared/appliance/model.ts';
import { debrief } from '#shared/marking/debrief.ts';
import { judgePath } from '#shared/marking/judged-path.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { stockNamed } from '../../sampled.ts';

const { pack, calloutsWith } = stockNamed('combi-tap-coil');
const look = pack.checks.find(({ id }) => id === 'look-flow-switch')!;

function looksUnder(callout: Callout, state: CalloutState, demand: Demand): CalloutState {
	return planCheck(pack, state, look, demand)!.actions.reduce((here, action) => {
		const next = act(callout, here, action);
		if ('refused' in next) throw new Error(next.refused);
		return next;
	}, state);
}

describe('the debrief of a stiff flow switch', () => {
	it('calls a fit justified by the rod that stays out at the part-open tap, not by the rod in at the full one, and bills nothing for it', async () => {
		const table = await evidenceFor(pack);
		let tried = 0;
		for (const callout of calloutsWith('flow-switch-stiff', 6)) {
			const full = looksUnder(callout, start(), 'tap');
			// Mild ones run at a full tap.
			if (full.readings.find(({ check }) => check === look.id)!.text !== look.words!.at(-1)!.word) continue;
			tried++;
			expect(debrief(callout, full, table).justifiedFrom, `${callout.seed}`).toBeNull();
			const part = looksUnder(callout, full, 'part-tap');
			const { events } = judgePath(callout, part, table);
			const held = events[full.events.length - 1].after.remedies[pack.remedies.findIndex(({ id }) => id === 'clean-flow-switch')];
			for (const { regret, best, event } of events.slice(full.events.length)) {
				expect(best?.kind, `${callout.seed}: ${event.index}`).not.toBe('remedy');
				if (held > 0.8) expect(regret, `${callout.seed}: ${event.index}`).toBeLessThan(0.01);
			}
		}
		expect(tried).toBeGreaterThan(1);
	}, 240_000);
});
