import { expect, test } from 'vitest';
import { undisturbed } from '#shared/marking/reasons.ts';
import { combi } from '../../sampled.ts';

// A display with nothing to show was once said to be over range.
test('a reading without end is told as its instrument tells it', () => {
	const infinite = (instrument: string) => {
		const check = combi.checks.find((one) => one.instrument === instrument)!;
		return undisturbed(combi, check, Infinity);
	};
	const silent = combi.instruments.filter(({ beyond }) => beyond !== undefined);
	expect(silent.length).toBeGreaterThan(0);
	for (const { id, beyond } of silent) expect(infinite(id)).toBe(beyond);
	expect(infinite('ohmmeter')).toBe('over range');
});
