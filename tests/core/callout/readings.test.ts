import { describe, expect, it } from 'vitest';
import { makeCallout } from '#shared/callout/make.ts';
import { bandOf, read, takeCheck, trueValue } from '#shared/callout/take-check.ts';
import { chance } from '#shared/quantity/random.ts';
import { smallPack } from '../scenario/small-family.ts';

const pack = smallPack();
const callout = makeCallout(pack, 21, 'element-weak');
const the = (id: string) => pack.checks.find((check) => check.id === id)!;

describe('a reading by an instrument', () => {
	it('differs from look to look, stays near the truth, and comes again for the same look', () => {
		const check = the('tap-temperature');
		const truth = trueValue(callout, check, 'tap', false);
		const looks = Array.from({ length: 50 }, (_, occasion) => takeCheck(callout, check, { demand: 'tap', cured: false, occasion }));
		expect(new Set(looks.map(({ value }) => value)).size).toBeGreaterThan(5);
		// The thermometer errs by 0.3 K, cut at three deviations, and shows tenths.
		for (const { value } of looks) expect(Math.abs(value - truth)).toBeLessThanOrEqual(0.95 + 1e-9);
		expect(takeCheck(callout, check, { demand: 'tap', cured: false, occasion: 7 })).toEqual(looks[7]);
	});

	it('says when it is over range', () => {
		expect(read(pack, the('element-ohms'), 1e9, chance(1))).toEqual({ value: Infinity, text: 'over range' });
	});
});

describe('a reading in words', () => {
	const check = the('tap-feel');

	it.each([
		[5, 'cold'],
		[19.99, 'cold'],
		[20, 'tepid'],
		[35.9, 'tepid'],
		[36, 'hot'],
		[90, 'hot']
	])('%f degC is %s', (tempC, word) => {
		expect(check.words![bandOf(check, tempC)]!.word).toBe(word);
	});

	it.each([
		{ band: 'an end', tempC: 50, near: ['tepid'] },
		{ band: 'the middle', tempC: 28, near: ['cold', 'hot'] }
	])('is misjudged as often as it says, by one band: $band', ({ tempC, near }) => {
		const looks = Array.from({ length: 4000 }, (_, seed) => read(pack, check, tempC, chance(seed, 'look')).text);
		const wrong = looks.filter((text) => text !== check.words![bandOf(check, tempC)]!.word);
		// 4000 looks at a chance of 0.2: a standard deviation of 0.0063; four of them are allowed.
		expect(Math.abs(wrong.length / looks.length - check.misjudged)).toBeLessThan(0.026);
		expect([...new Set(wrong)].sort()).toEqual(near);
		for (const word of near)
			expect(Math.abs(wrong.filter((text) => text === word).length / wrong.length - 1 / near.length)).toBeLessThan(0.08);
	});

	it('of a household fact tells the fact', () => {
		const ask = the('ask-water');
		for (let seed = 0; seed < 30; seed++) {
			const one = makeCallout(pack, seed);
			const said = takeCheck(one, ask, { demand: 'none', cured: false, occasion: 0 }).text;
			expect(said).toBe(one.household.facts.includes('hard-water') ? 'it furs up' : 'it stays clean');
		}
	});
});

describe('a cured machine', () => {
	it('reads as the same machine without its fault', () => {
		const check = the('tap-temperature');
		expect(trueValue(callout, check, 'tap', true)).toBe(pack.model.settle(callout.sound, 'tap')['tapTempC']);
		expect(trueValue(callout, check, 'tap', true)).toBeGreaterThan(trueValue(callout, check, 'tap', false));
	});
});
