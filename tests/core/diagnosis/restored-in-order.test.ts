/** Water back and the joints seen, then gas, then electricity, the casing last: common practice, no source. */
import { describe, expect, it } from 'vitest';
import { checksDue } from '#shared/callout/disturbed.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { statesAlong } from '#shared/diagnosis/belief.ts';
import { planLeave } from '#shared/diagnosis/plan.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import { openingSite } from '#shared/scenario/site.ts';
import type { SiteState } from '#shared/scenario/schema.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { stock } from '../../sampled.ts';

const stepsOf = (state: Pick<CalloutState, 'events'>) =>
	state.events.flatMap(({ action, index }) => (action.kind === 'step' ? [{ step: action.step, index }] : []));

describe.each(stock)('$id', ({ pack, faults, calloutsWith }) => {
	it('goes from all off to all on by water, gas, electricity and casing, at no more than the steps themselves take', () => {
		const allOff: SiteState[] = ['casing-off', 'electricity-off', 'proved-dead', 'gas-off', 'water-off'];
		const plan = planLeave(pack, { demand: 'none', site: new Set(allOff), fetched: new Set() }, [])!;
		const restoring = pack.rules.steps.filter(({ sets }) => sets.some((state) => openingSite.includes(state)));
		expect(plan.actions.flatMap((action) => (action.kind === 'step' ? [action.step] : []))).toEqual([
			'restore-water',
			'restore-gas',
			'restore-electricity',
			'close-casing'
		]);
		expect(plan.minutes).toBe(restoring.reduce((sum, { minutes }) => sum + minutes, pack.rules.leaveMinutes));
	});

	it('makes nothing live on a sound path of any fault before the water is back and the joints that were opened are seen', async () => {
		const table = await evidenceFor(pack);
		let opened = 0;
		for (const fault of faults.slice(1)) {
			const [callout] = calloutsWith(fault, 1);
			const { state } = soundPath(callout, table);
			const states = statesAlong(callout, state);
			for (const { step, index } of stepsOf(state)) {
				if (step !== 'restore-electricity') continue;
				const { site } = states[index];
				expect(site.has('water-on') && site.has('gas-on'), `${fault}: ${index}`).toBe(true);
				expect(
					checksDue(pack, states[index], (kind) => kind === 'water'),
					`${fault}: ${index}`
				).toEqual([]);
				if (state.events.slice(0, index).some(({ action }) => action.kind === 'step' && action.step === 'restore-water')) opened++;
			}
			const last = stepsOf(state).at(-1);
			if (state.remedies.length > 0 && last) expect(last.step, fault).not.toBe('restore-electricity');
		}
		expect(opened).toBeGreaterThan(3);
	});
});
