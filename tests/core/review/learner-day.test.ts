import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dateOf, dayOf, startOfDay, weekOf } from '#shared/review/memory/learner-day.ts';

const hour = 3_600_000;
/** Both hemispheres, half and quarter hours, half-hour changes, changes at midnight, two hours at once, a day left out, none at all. */
const zones = [
	'UTC',
	'Europe/London',
	'Europe/Lisbon',
	'America/New_York',
	'America/Havana',
	'America/St_Johns',
	'Africa/Casablanca',
	'Asia/Kolkata',
	'Asia/Kathmandu',
	'Asia/Beirut',
	'Australia/Adelaide',
	'Australia/Lord_Howe',
	'Antarctica/Troll',
	'Pacific/Apia',
	'Pacific/Kiritimati'
];
const anyZone = fc.constantFrom(...zones);
const anyInstant = fc.integer({ min: Date.UTC(1990, 0, 1), max: Date.UTC(2050, 0, 1) });
const at = (text: string) => Date.parse(text);

describe('the day of an instant', () => {
	it('turns at 04:00 on the clock of the zone', () => {
		const zone = 'Europe/London';
		expect(dateOf(dayOf(at('2026-01-06T03:59:59.999Z'), zone))).toBe('2026-01-05');
		expect(dateOf(dayOf(at('2026-01-06T04:00:00Z'), zone))).toBe('2026-01-06');
		expect(dateOf(dayOf(at('2026-07-06T02:59:59Z'), zone))).toBe('2026-07-05');
		expect(dateOf(dayOf(at('2026-07-06T03:00:00Z'), zone))).toBe('2026-07-06');
	});

	it('follows half and quarter hours', () => {
		expect(startOfDay(dayOf(at('2026-05-01T12:00:00Z'), 'Asia/Kolkata'), 'Asia/Kolkata')).toBe(at('2026-04-30T22:30:00Z'));
		expect(startOfDay(dayOf(at('2026-05-01T12:00:00Z'), 'Asia/Kathmandu'), 'Asia/Kathmandu')).toBe(at('2026-04-30T22:15:00Z'));
	});

	it('never goes back as time goes on', () => {
		fc.assert(
			fc.property(anyZone, anyInstant, fc.integer({ min: 0, max: 40 * hour }), (zone, instant, later) => {
				expect(dayOf(instant + later, zone)).toBeGreaterThanOrEqual(dayOf(instant, zone));
			}),
			{ numRuns: 500 }
		);
	});

	it('begins where it says: at its start it is that day, a millisecond before the one before', () => {
		fc.assert(
			fc.property(anyZone, anyInstant, (zone, instant) => {
				const day = dayOf(instant, zone);
				const start = startOfDay(day, zone);
				expect(start).toBeLessThanOrEqual(instant);
				expect(startOfDay(day + 1, zone)).toBeGreaterThan(instant);
				expect(dayOf(start, zone)).toBe(day);
				expect(dayOf(start - 1, zone)).toBe(day - 1);
			}),
			{ numRuns: 500 }
		);
	});

	it("has the date that the zone's clock shows at noon of it", () => {
		fc.assert(
			fc.property(anyZone, anyInstant, (zone, instant) => {
				const day = dayOf(instant, zone);
				const noon = startOfDay(day, zone) + 8 * hour;
				const shown = new Intl.DateTimeFormat('en-CA', { timeZone: zone, dateStyle: 'short' }).format(noon);
				// The day that Samoa left out has no noon.
				if (!(zone === 'Pacific/Apia' && dateOf(day) === '2011-12-30')) expect(shown).toBe(dateOf(day));
			}),
			{ numRuns: 500 }
		);
	});
});

describe('clock changes', () => {
	/** Hours from one start to the next, of the day that begins on a date. */
	const hours = (date: string, zone: string) => {
		const day = Date.parse(`${date}T00:00:00Z`) / (24 * hour);
		return (startOfDay(day + 1, zone) - startOfDay(day, zone)) / hour;
	};

	it.each([
		['Europe/London', '2026-03-28', 23],
		['Europe/London', '2026-10-24', 25],
		['America/New_York', '2026-03-07', 23],
		['America/New_York', '2026-10-31', 25],
		['Australia/Lord_Howe', '2026-10-03', 23.5],
		['Australia/Lord_Howe', '2026-04-04', 24.5],
		['Antarctica/Troll', '2026-03-28', 22],
		['Antarctica/Troll', '2026-10-24', 26],
		// Put forward at midnight, so that the date has no 00:00.
		['America/Havana', '2026-03-07', 23],
		['Asia/Beirut', '2026-03-28', 23],
		['Asia/Kolkata', '2026-03-28', 24]
	])('in %s the day of %s has %f hours', (zone, date, length) => {
		expect(hours(date, zone)).toBe(length);
	});

	it('the days around them have 24', () => {
		for (const date of ['2026-03-27', '2026-03-29', '2026-10-23', '2026-10-25']) expect(hours(date, 'Europe/London')).toBe(24);
	});

	it('a day that a zone left out is there for its last hours, and the one before is short', () => {
		expect([hours('2011-12-29', 'Pacific/Apia'), hours('2011-12-30', 'Pacific/Apia')]).toEqual([20, 4]);
	});
});

describe('weeks and zones', () => {
	it('begin on Mondays', () => {
		const sunday = dayOf(at('2026-01-04T20:00:00Z'), 'UTC');
		expect(dateOf(weekOf(sunday))).toBe('2025-12-29');
		expect(dateOf(weekOf(sunday + 1))).toBe('2026-01-05');
		fc.assert(
			fc.property(fc.integer({ min: -30_000, max: 30_000 }), (day) => {
				expect(new Date(`${dateOf(weekOf(day))}T00:00:00Z`).getUTCDay()).toBe(1);
				expect(day - weekOf(day)).toBeGreaterThanOrEqual(0);
				expect(day - weekOf(day)).toBeLessThan(7);
			})
		);
	});

	it('are known by their IANA names only', () => {
		expect(() => dayOf(0, 'Europe/London')).not.toThrow();
		for (const zone of ['Europe/Nowhere', '']) expect(() => dayOf(0, zone)).toThrow(RangeError);
	});
});
