import { expect, test } from 'vitest';
import { act } from '#shared/callout/act.ts';
import { replay } from '#shared/callout/replay.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { calloutsWith, combi } from '../../sampled.ts';

const listen = [
	{ kind: 'demand', demand: 'tap' },
	{ kind: 'check', check: 'listen-fan-over-time' }
] as const;

test('a check over time brings the run as it could be followed, to the step it can be read to', () => {
	for (const callout of calloutsWith('plate-scaled', 10)) {
		const { trace } = replay(callout, listen).readings.at(-1)!;
		const fan = trace!.lines.find(({ signal }) => signal === 'fanPercent')!;
		expect(fan.values).toHaveLength(trace!.seconds.length);
		expect(trace!.seconds.at(-1)).toBeGreaterThan(230);
		expect(fan.values.every((value) => value % 5 === 0)).toBe(true);
		expect(fan.values.at(-1)).toBeLessThan(Math.max(...fan.values));
	}
});

test('it follows the machine as it is: after the cure, the sound one', () => {
	for (const callout of calloutsWith('fan-slow', 5)) {
		const before = replay(callout, listen);
		const after = act(callout, { ...before, cured: true }, { kind: 'check', check: 'listen-fan-over-time' }) as CalloutState;
		const highest = (state: CalloutState) => Math.max(...state.readings.at(-1)!.trace!.lines[0]!.values);
		expect(highest(after)).toBeGreaterThan(highest(before));
	}
});

test('a check that follows nothing brings no trace', () => {
	const [callout] = calloutsWith('plate-scaled', 1);
	const readings = replay(callout!, [listen[0]]).readings;
	expect(readings.length).toBeGreaterThan(0);
	for (const reading of readings) expect(reading).not.toHaveProperty('trace');
	expect(combi.checks.some((check) => check.over)).toBe(true);
});
