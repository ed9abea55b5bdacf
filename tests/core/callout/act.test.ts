import { describe, expect, it } from 'vitest';
import { start } from '#shared/callout/act.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { smallPack } from '../scenario/small-family.ts';
import { check, demand, does, leave, prove, refusal, remedy, step } from './drive.ts';

const pack = smallPack();
const callout = makeCallout(pack, 11, 'element-weak');
const dead = [step('isolate-electricity'), step('prove-dead')];
const openAndDead = [step('open-casing'), ...dead];
const restored = [step('restore-water'), step('restore-electricity'), step('close-casing')];

describe('a demand', () => {
	it('takes its minutes and returns what anyone would notice', () => {
		const state = does(callout, [demand('tap')]);
		expect(state.minutes).toBe(3);
		expect(state.readings.map(({ check }) => check)).toEqual(['display', 'tap-feel']);
		expect(state.demand).toBe('tap');
	});

	it('needs every supply, and falls away with one', () => {
		expect(refusal(callout, does(callout, [step('isolate-gas')]), demand('tap'))).toMatch(/gas must be on: restore the gas first/);
		expect(does(callout, [demand('tap'), step('isolate-electricity')]).demand).toBe('none');
	});

	it('that the appliance does not offer is refused', () => {
		expect(refusal(callout, start(), demand('heating'))).toMatch(/no demand "heating"/);
	});
});

describe('a check', () => {
	it('is refused under another demand, or behind the casing, and says what to do', () => {
		expect(refusal(callout, start(), check('tap-feel'))).toMatch(/taken with "Tap open": set that first/);
		expect(refusal(callout, does(callout, dead), check('element-ohms'))).toMatch(/casing must be off: take the casing off first/);
	});

	it('that needs nothing off is refused while a supply is off', () => {
		expect(refusal(callout, does(callout, dead), check('tap-temperature'))).toMatch(/electricity must be on/);
	});

	it('asking the customer can be done whatever is off', () => {
		expect(does(callout, [...dead, check('ask-water')]).readings.at(-1)?.text).toMatch(/stays clean|furs up/);
	});

	it('without its isolation is stopped, stored and explained', () => {
		const state = does(callout, [step('open-casing'), check('element-ohms')]);
		const event = state.events.at(-1)!;
		expect(event).toMatchObject({ minutes: 1, readings: [], breaches: ['work-not-made-safe'] });
		expect(event.says.join(' ')).toBe('Stopped: the electricity must be isolated, and the circuit must be proved dead.');
		expect(state.ended).toBeNull();
	});

	it('on what is isolated but not proved dead is a breach of its own', () => {
		const state = does(callout, [step('open-casing'), step('isolate-electricity'), check('element-ohms')]);
		expect(state.events.at(-1)?.breaches).toEqual(['not-proved-dead']);
	});

	it('costs a walk to the van the first time its instrument is used', () => {
		const state = does(callout, [
			...openAndDead,
			check('element-ohms'),
			check('element-ohms'),
			step('restore-electricity'),
			check('tap-temperature')
		]);
		expect(state.events.map(({ minutes }) => minutes)).toEqual([2, 1, 2, 5, 4, 1, 1]);
		expect([...state.fetched]).toEqual(['meter']);
	});

	it('names the remedies already done', () => {
		const state = does(callout, [
			step('isolate-water'),
			remedy('clean-valve'),
			step('restore-water'),
			demand('tap'),
			check('tap-temperature')
		]);
		expect(state.readings.at(-1)?.after).toEqual(['clean-valve']);
	});
});

describe('steps', () => {
	it('that stand already, or come in the wrong order, are refused', () => {
		expect(refusal(callout, start(), step('restore-gas'))).toMatch(/so already/);
		expect(refusal(callout, start(), step('prove-dead'))).toMatch(/First: Isolate the electricity/);
	});

	it('that restore the electricity undo the proof', () => {
		const state = does(callout, [...dead, step('restore-electricity'), step('isolate-electricity')]);
		expect([...state.site].sort()).toEqual(['casing-on', 'electricity-off', 'gas-on', 'water-on']);
	});
});

describe('a remedy', () => {
	it('costs its minutes and the middle of its price, and cures if it is the cure', () => {
		const state = does(callout, [...openAndDead, step('isolate-water'), remedy('fit-element')]);
		expect(state).toMatchObject({ spent: 50, cured: true });
		expect(state.remedies).toEqual([{ event: 4, remedy: 'fit-element', sure: 'likely', cured: true }]);
	});

	it('that is not the cure leaves the fault where it is', () => {
		const state = does(callout, [step('isolate-water'), remedy('clean-valve'), step('restore-water'), prove]);
		expect(state.cured).toBe(false);
		expect(state.events.at(-1)?.says).toEqual(['What the customer complained of is still there.']);
	});

	it('on gas with the gas on ends the visit', () => {
		const state = does(callout, [step('isolate-water'), remedy('fit-valve')]);
		expect(state).toMatchObject({ ended: 'stopped', spent: 0, remedies: [] });
		expect(state.events.at(-1)?.breaches).toEqual(['gas-opened-on']);
		expect(refusal(callout, state, demand('tap'))).toMatch(/over/);
	});

	it('on live terminals ends the visit', () => {
		const state = does(callout, [step('open-casing'), step('isolate-water'), remedy('fit-element')]);
		expect(state).toMatchObject({ ended: 'stopped', cured: false });
		expect(state.events.at(-1)?.breaches).toEqual(['live-parts-touched']);
	});

	it('is not fitted twice', () => {
		const state = does(callout, [...openAndDead, step('isolate-water'), remedy('fit-element')]);
		expect(refusal(callout, state, remedy('fit-element'))).toMatch(/fitted already/);
	});
});

describe('proving and leaving', () => {
	const cured = does(callout, [...openAndDead, step('isolate-water'), remedy('fit-element')]);

	it('wants everything restored', () => {
		expect(refusal(callout, cured, prove)).toMatch(/casing must be back on.*electricity must be on.*water must be on/);
	});

	it('says that the complaint is gone once it is', () => {
		const state = does(callout, [...restored, prove], cured);
		expect(state.events.at(-1)?.says).toEqual(['What the customer complained of is gone.']);
		expect(state.provedAt).toBe(8);
		expect(state.readings.at(-1)).toMatchObject({ demand: 'tap', after: ['fit-element'] });
	});

	it('is undone by a later remedy', () => {
		const state = does(callout, [...restored, prove, remedy('advise-user')], cured);
		expect(state.provedAt).toBeNull();
	});

	it('leaves with what was told', () => {
		const state = does(callout, [...restored, prove, { kind: 'leave', told: ['scale-control', 'scale-control'] }], cured);
		expect(state).toMatchObject({ ended: 'left', told: ['scale-control'] });
		expect(state.events.at(-1)?.breaches).toEqual([]);
	});

	it('tells and marks what is left open or off', () => {
		const state = does(callout, [leave], cured);
		expect(state.ended).toBe('left');
		expect(state.events.at(-1)?.breaches).toEqual(['left-open']);
		expect(state.events.at(-1)?.says.join(' ')).toMatch(/casing is left off.*electricity is left off.*water is left off/);
	});

	it('refuses advice and faults that do not exist', () => {
		expect(refusal(callout, start(), { kind: 'leave', told: ['sell-a-boiler'] })).toMatch(/no advice/);
		expect(refusal(callout, start(), { kind: 'judge', still: ['gremlin'] })).toMatch(/no fault/);
	});
});
