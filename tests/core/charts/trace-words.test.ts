/** The sentence of a trace on the shapes that runs take. */
import { expect, it } from 'vitest';
import type { RunTrace } from '#shared/callout/state.ts';
import { describeTrace } from '$lib/charts/trace/describe-trace';

const every = 2;
const runOf = (values: readonly number[], more: Partial<RunTrace['lines'][number]> = {}): RunTrace => ({
	seconds: values.map((_, i) => i * every),
	lines: [{ signal: 'fanPercent', says: 'Fan speed, share of full', unit: '%', values, ...more }]
});
const ramp = (from: number, to: number, points: number) =>
	Array.from({ length: points }, (_, i) => Math.round(from + ((to - from) * i) / points));
const hold = (value: number, points: number) => Array.from({ length: points }, () => value);
const spoken = (trace: RunTrace) => describeTrace(trace).replaceAll('\u00a0', ' ');
const degrees = { signal: 'tapTempC', says: 'Appliance hot-water outlet', unit: 'degC' };
const state = { signal: 'burnerOn', says: 'Burner lit', unit: '1' };

it.each([
	['never runs', runOf(hold(0, 60)), 'Fan speed stays at 0 %.'],
	['holds', runOf([...ramp(0, 100, 6), ...hold(100, 100)]), 'Fan speed rises to 100 % at 12 s and stays there.'],
	[
		'winds down to the end',
		runOf([...ramp(0, 100, 6), ...hold(100, 30), ...ramp(100, 62, 84), 62]),
		'Fan speed rises to 100 % at 12 s, winds down from 74 s, ends at 62 %.'
	],
	[
		'winds down and stays',
		runOf([...ramp(0, 100, 6), ...ramp(100, 60, 20), ...hold(60, 80)]),
		'Fan speed rises to 100 % at 12 s, winds down to 60 % at 52 s and stays there.'
	],
	[
		'cycles',
		runOf(Array.from({ length: 6 }, () => [...ramp(0, 90, 5), ...ramp(90, 0, 5)]).flat()),
		'Fan speed goes up and down 6 times between 0 % and 90 %, ends at 18 %.'
	],
	['trembles by one step', runOf(Array.from({ length: 60 }, (_, i) => 55 + 5 * (i % 2))), 'Fan speed stays between 55 % and 60 %.'],
	[
		'falls from where it was',
		runOf([...ramp(30, 12, 9), ...hold(12, 60)], degrees),
		'Appliance hot-water outlet falls from 30 °C to 12 °C at 18 s and stays there.'
	],
	[
		'starts late',
		runOf([...hold(20, 50), ...ramp(20, 60, 60), 60], degrees),
		'Appliance hot-water outlet stays at about 20 °C until 100 s, rises from 100 s, ends at 60 °C.'
	],
	['is never lit', runOf(hold(0, 60), state), 'Burner lit: at no time.'],
	['is always lit', runOf(hold(1, 60), state), 'Burner lit: throughout.'],
	['is lit to the end', runOf([...hold(0, 4), ...hold(1, 56)], state), 'Burner lit: from 8 s to the end.'],
	['goes out', runOf([...hold(0, 4), ...hold(1, 6), ...hold(0, 50)], state), 'Burner lit: from 8 s to 20 s.'],
	[
		'lights twice',
		runOf([0, 0, 1, 1, 1, 0, 0, 0, 1, 1, ...hold(1, 10)], state),
		'Burner lit: twice, first at 4 s, 28 s in all, and so at the end.'
	]
])('says what a line does that %s', (_, trace, says) => {
	expect(spoken(trace)).toBe(says);
});

it('puts several lines into one sentence, no figure parted from its unit', () => {
	const fan = runOf([...ramp(0, 100, 6), ...hold(100, 54)]);
	const both = { ...fan, lines: [...fan.lines, ...runOf([...hold(0, 4), ...hold(1, 56)], state).lines] };
	const words = describeTrace(both);
	expect(words.replaceAll('\u00a0', ' ')).toBe('Fan speed rises to 100 % at 12 s and stays there; burner lit: from 8 s to the end.');
	expect(words).not.toMatch(/\d (%|s|°C)/);
});
