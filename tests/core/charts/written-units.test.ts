import { expect, it } from 'vitest';
import { unbroken, writtenSentence, writtenUnit } from '$lib/ui/written';

it.each([
	['suspicion was 41 % then', 'suspicion was 41\u00a0% then'],
	['8.2 l/min in 12 minutes at 1.4 bar', '8.2\u00a0l/min in 12\u00a0minutes at 1.4\u00a0bar'],
	['2 minutes, 1 minute, 5 min.', '2\u00a0minutes, 1\u00a0minute, 5\u00a0min.'],
	['230 V, 12 kW and 3 K', '230\u00a0V, 12\u00a0kW and 3\u00a0K']
])('holds figures to their units: %s', (says, written) => {
	expect(unbroken(says)).toBe(written);
});

it('lets a line break after a figure that has no unit', () => {
	for (const says of ['3 Vents', '2 sides', '1 in 4', '5 of 6 faults', '12 Kinds']) expect(unbroken(says)).toBe(says);
});

it('writes units as in the trade and holds them', () => {
	expect(writtenSentence('at 41 degC, 0.9 m3/h and 3 uA')).toBe('at 41\u00a0°C, 0.9\u00a0m³/h and 3\u00a0µA');
});

it('writes revolutions a minute as it is said', () => {
	expect(writtenUnit('1/min')).toBe('rev/min');
	expect(unbroken('turns at 4200 rev/min')).toBe('turns at 4200\u00a0rev/min');
});
