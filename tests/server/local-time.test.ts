import { describe, expect, test } from 'vitest';
import { daysLater, instantOf, localTime } from '$lib/server/local-time.ts';

const london = 'Europe/London';
const at = (iso: string) => Date.parse(iso);

describe('times as a form writes them', () => {
	test('an instant on the clock of a zone, and back', () => {
		expect(localTime(at('2026-07-01T08:30:59Z'), london)).toBe('2026-07-01T09:30');
		expect(instantOf('2026-07-01T09:30', london)).toBe(at('2026-07-01T08:30Z'));
		expect(instantOf('2026-07-01T09:30:45', london)).toBe(at('2026-07-01T08:30Z'));
		expect(instantOf('2026-01-05T22:15', 'America/St_Johns')).toBe(at('2026-01-06T01:45Z'));
		expect(localTime(at('2026-01-06T01:45Z'), 'America/St_Johns')).toBe('2026-01-05T22:15');
	});

	// Clock changes are those of the zone tables of the language's own Intl. London 2026: forward 29 March 01:00, back 25 October 02:00.
	test('a time that the clock leaves out is as long after the change as it was written after the hour began', () => {
		expect(instantOf('2026-03-29T01:30', london)).toBe(at('2026-03-29T01:30Z'));
		expect(localTime(at('2026-03-29T01:30Z'), london)).toBe('2026-03-29T02:30');
		expect(instantOf('2026-03-29T00:59', london)).toBe(at('2026-03-29T00:59Z'));
		expect(instantOf('2026-03-29T02:00', london)).toBe(at('2026-03-29T01:00Z'));
	});

	test('a time that the clock shows twice is the first of the two', () => {
		expect(instantOf('2026-10-25T01:30', london)).toBe(at('2026-10-25T00:30Z'));
		expect(instantOf('2026-10-25T02:00', london)).toBe(at('2026-10-25T02:00Z'));
		expect(instantOf('2026-10-25T00:59', london)).toBe(at('2026-10-24T23:59Z'));
	});

	test('every quarter of an hour about a change comes back as it was, but for the hour that comes twice', () => {
		const [quarter, day] = [15 * 60_000, 24 * 3_600_000];
		const changes = ['2026-03-29', '2026-04-05', '2026-09-27', '2026-10-04', '2026-10-25'].map((date) => at(`${date}T00:00Z`));
		let second = 0;
		for (const zone of [london, 'Australia/Lord_Howe', 'Pacific/Chatham'])
			for (const change of changes)
				for (let t = change - day; t < change + 2 * day; t += quarter) {
					const back = instantOf(localTime(t, zone), zone)!;
					expect(localTime(back, zone)).toBe(localTime(t, zone));
					if (back === t) continue;
					expect(back, `${zone} ${new Date(t).toISOString()}`).toBeLessThan(t);
					second++;
				}
		// An hour in London and one on Chatham are four quarters each, the half hour of Lord Howe two.
		expect(second).toBe(10);
	});

	test('what is no time is none', () => {
		for (const said of [
			'',
			'tomorrow',
			'2026-02-30T10:00',
			'2026-13-01T10:00',
			'2026-01-01T24:30',
			'2026-01-01',
			'2026-1-1T10:00',
			'99999-01-01T10:00'
		])
			expect(instantOf(said, london), said).toBeNull();
	});

	test('a week later by the clock, over a change', () => {
		expect(daysLater('2026-10-20T09:30', 7)).toBe('2026-10-27T09:30');
		expect(instantOf(daysLater('2026-10-20T09:30', 7), london)! - instantOf('2026-10-20T09:30', london)!).toBe((7 * 24 + 1) * 3_600_000);
	});
});
