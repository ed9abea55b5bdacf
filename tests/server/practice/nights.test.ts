import { describe, expect, it } from 'vitest';
import { eveningWords, nightWords } from '$lib/server/practice/nights.ts';

const zone = 'Europe/London';
/** A Wednesday evening in winter, so that London's clock is UTC. */
const now = Date.parse('2026-11-25T21:00:00Z');
const due = (date: string) => Date.parse(`${date}T04:00:00Z`);

describe('the night on which a skill comes back', () => {
	it('is tonight once it has come', () => {
		expect(nightWords(due('2026-11-25'), now, zone)).toBe('tonight');
		expect(nightWords(due('2026-10-01'), now, zone)).toBe('tonight');
	});

	it('is named by the day of the week within a week, by the date after it, with the year in another', () => {
		expect(nightWords(due('2026-11-26'), now, zone)).toBe('tomorrow night');
		expect(nightWords(due('2026-11-27'), now, zone)).toBe('on Friday night');
		expect(nightWords(due('2026-12-01'), now, zone)).toBe('on Tuesday night');
		expect(nightWords(due('2026-12-02'), now, zone)).toBe('on Wednesday 2 December');
		expect(nightWords(due('2027-01-04'), now, zone)).toBe('on Monday 4 January 2027');
	});

	it('belongs to the evening before while the clock is before four', () => {
		const late = Date.parse('2026-11-26T02:30:00Z');
		expect(nightWords(due('2026-11-26'), late, zone)).toBe('tomorrow night');
		expect(nightWords(due('2026-11-26'), Date.parse('2026-11-26T04:00:00Z'), zone)).toBe('tonight');
	});

	it('is said of a day as well', () => {
		expect(eveningWords(now, zone)).toBe('Wednesday 25 November');
		expect(eveningWords(Date.parse('2026-11-26T03:59:00Z'), zone)).toBe('Wednesday 25 November');
		expect(eveningWords(now, 'Pacific/Auckland')).toBe('Thursday 26 November');
	});

	it('is the learner’s own night', () => {
		const auckland = Date.parse('2026-11-26T15:00:00Z');
		expect(nightWords(auckland, now, 'Pacific/Auckland')).toBe('tomorrow night');
	});
});
