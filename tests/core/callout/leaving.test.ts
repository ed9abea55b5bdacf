import { describe, expect, it } from 'vitest';
import { coRatio } from '#shared/callout/leaving.ts';
import { makeCallout } from '#shared/callout/make.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { smallPack } from '../scenario/small-family.ts';
import { check, demand, does, leave, remedy, step } from './drive.ts';

const pack = smallPack();
const fittedValve = [step('isolate-gas'), step('isolate-water'), remedy('fit-valve'), step('restore-water'), step('restore-gas')];

describe('after gas work', () => {
	const callout = makeCallout(pack, 4, 'valve-passing');

	it('leaving without the checks that must follow is dangerous', () => {
		const state = does(callout, [...fittedValve, leave]);
		expect(state.ended).toBe('stopped');
		expect(state.events.at(-1)?.breaches).toContain('left-gas-unproved');
	});

	it('checks taken before the work do not count', () => {
		const before = [step('open-casing'), check('gas-tightness'), demand('tap'), check('flue-analysis'), step('close-casing')] as const;
		expect(does(callout, [...before, ...fittedValve, leave]).ended).toBe('stopped');
	});

	it('with the checks taken it is sound', () => {
		const after = [step('open-casing'), check('gas-tightness'), demand('tap'), check('flue-analysis'), step('close-casing')] as const;
		const state = does(callout, [...fittedValve, ...after, leave]);
		expect(state.ended).toBe('left');
		expect(state.events.at(-1)?.breaches).toEqual([]);
	});

	it('an appliance turned off at its cock is not left running', () => {
		const state = does(callout, [...fittedValve, step('isolate-gas'), leave]);
		expect(state.ended).toBe('left');
		expect(state.events.at(-1)?.breaches).toEqual(['left-open']);
	});
});

describe('the appliance as it runs', () => {
	const withParameter = (from: string, to: string): Pack => smallPack({ 'families/small.yaml': [[from, to]] });

	it('beyond the limit of carbon monoxide is not left running', () => {
		const bad = withParameter('burner.coPpm: { nominal: 40, spread: 0.1 }', 'burner.coPpm: { nominal: 400 }');
		const state = does(makeCallout(bad, 1, 'element-weak'), [leave]);
		expect(state.ended).toBe('stopped');
		expect(state.events.at(-1)?.breaches).toEqual(['left-bad-combustion']);
	});

	it('within the limit it is', () => {
		const close = withParameter('burner.coPpm: { nominal: 40, spread: 0.1 }', 'burner.coPpm: { nominal: 350 }');
		expect(does(makeCallout(close, 1, 'element-weak'), [leave]).ended).toBe('left');
	});

	it('scalding, with nobody told, is a breach; told, it is none', () => {
		const hot = withParameter('element.kw: { nominal: 12, spread: 0.02 }', 'element.kw: { nominal: 24 }');
		const callout = makeCallout(hot, 2, 'valve-passing');
		const cured = [
			...fittedValve,
			step('open-casing'),
			check('gas-tightness'),
			demand('tap'),
			check('flue-analysis'),
			step('close-casing')
		] as const;
		expect(does(callout, [...cured, leave]).events.at(-1)?.breaches).toEqual(['left-scalding']);
		expect(does(callout, [...cured, { kind: 'leave', told: ['advise-scald'] }]).events.at(-1)?.breaches).toEqual([]);
	});
});

describe('the ratio of carbon monoxide to carbon dioxide', () => {
	// 200 ppm at 9.0 % is 0.0022: arithmetic on the definition, as in the UK guidance for condensing boilers (computed).
	it.each([
		[200, 9, 0.0022],
		[350, 9, 0.0039],
		[320, 8, 0.004]
	])('%i ppm at %f %%', (coPpm, co2Percent, ratio) => {
		expect(coRatio({ coPpm, co2Percent })).toBeCloseTo(ratio, 4);
	});

	it('is nought where nothing burns', () => {
		expect(coRatio({ coPpm: 0, co2Percent: 0 })).toBe(0);
	});
});
