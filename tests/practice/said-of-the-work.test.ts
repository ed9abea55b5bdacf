// What an engineer must be told before the work, and that one thing goes by one name. Common practice, no published source.
import { describe, expect, test } from 'vitest';
import { stock } from '../sampled.ts';

describe.each(stock)('$id', ({ pack }) => {
	const check = (id: string) => pack.checks.find((one) => one.id === id);

	test.each([
		['measure-air-pressure', /fan|tube/i],
		['measure-fan-pressure', /fan/i],
		['measure-flue-temperature', /hot/i],
		['test-tightness', /let-by|let by/i],
		['look-electrode', /combustion/i]
	])('%s warns of its own danger, where the family has it', (id, warns) => {
		const offered = check(id);
		if (offered) expect(offered.caution).toMatch(warns);
	});

	test('acid is warned of wherever something is descaled', () => {
		const descaling = pack.remedies.filter(({ kind }) => kind === 'descale');
		expect(descaling.length).toBeGreaterThan(0);
		for (const { caution } of descaling) expect(caution).toMatch(/acid/i);
	});

	test('the electrode is looked at as it is cleaned: with the gas off', () => {
		const cleaning = pack.remedies.find(({ id }) => id === 'clean-electrode')!;
		expect(check('look-electrode')!.needs).toEqual(cleaning.needs);
	});

	test('joints can be looked at under whatever is asked for', () => {
		expect([...check('look-joints')!.under].sort()).toEqual(pack.family.demands.map(({ id }) => id).sort());
	});

	test('the over-temperature limit goes by one name', () => {
		const { family, drawing, parts, faults } = pack;
		const words = JSON.stringify([family, drawing, parts, faults.map(({ says, because }) => [says, because]), pack.checks]);
		expect(words).not.toMatch(/overheat (limit|thermostat)/i);
		expect(check('measure-limit')!.name).toBe(parts.find(({ id }) => id === 'limit')!.name);
	});

	test('a worn electrode passes least where the burner burns least', () => {
		expect(pack.faults.find(({ id }) => id === 'electrode-worn')!.because).not.toMatch(/least of all at low/);
	});

	test('a sealed system has its expansion vessel on the drawing', () => {
		expect(pack.drawing.places.map(({ id }) => id)).toContain('expansion-vessel');
	});
});
