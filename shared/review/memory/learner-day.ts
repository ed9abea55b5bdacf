/**
 * The learner's day: it turns at 04:00 on the clock of the learner's time zone, so that practice after midnight belongs to the evening
 * before. Days are numbered from 0 on 1 January 1970, by the date on which they begin.
 *
 * A day begins at the first instant at which the zone's clock has reached 04:00 of its date. So where clocks are put back over 04:00 the
 * day does not begin twice; where they are put forward over it, it begins at the change; and days are 23 or 25 hours long around a change.
 * Zones and their changes are those of the language's own `Intl`.
 */

export type DayNumber = number;

const secondMs = 1000;
const hourMs = 3_600_000;
const dayMs = 86_400_000;
/** The hour at which a day turns: a judgement of ours. */
const turnsAtHour = 4;
/** No zone is further from UTC than this, either way [h]. */
const furthestHours = 16;

const clocks = new Map<string, Intl.DateTimeFormat>();

/** @throws RangeError for a zone that is not known */
function clockOf(zone: string): Intl.DateTimeFormat {
	const kept = clocks.get(zone);
	if (kept) return kept;
	const clock = new Intl.DateTimeFormat('en-GB', {
		timeZone: zone,
		calendar: 'gregory',
		numberingSystem: 'latn',
		hourCycle: 'h23',
		year: 'numeric',
		month: 'numeric',
		day: 'numeric',
		hour: 'numeric',
		minute: 'numeric',
		second: 'numeric'
	});
	clocks.set(zone, clock);
	return clock;
}

/** How far the zone's clock is ahead of UTC at an instant [ms]. @throws RangeError for a zone that is not known */
export function aheadMs(at: number, zone: string): number {
	const shown = Object.fromEntries(
		clockOf(zone)
			.formatToParts(at)
			.map(({ type, value }) => [type, Number(value)])
	);
	const seconds = (shown['hour'] * 60 + shown['minute']) * 60 + shown['second'];
	const clock = dateNumber(shown['year'], shown['month'], shown['day']) * dayMs + seconds * secondMs;
	return clock - Math.floor(at / secondMs) * secondMs;
}

/**
 * Days from 1 January 1970 to a date of the Gregorian calendar. Years are begun in March, so that the leap day is a year's last and the
 * months before it follow the pattern 31, 30, 31, 30, 31.
 * @param month 1 to 12
 */
function dateNumber(year: number, month: number, day: number): DayNumber {
	const marchYear = month <= 2 ? year - 1 : year;
	const leapDays = Math.floor(marchYear / 4) - Math.floor(marchYear / 100) + Math.floor(marchYear / 400);
	const daysOfMonths = Math.floor((153 * ((month + 9) % 12) + 2) / 5);
	/** Days from 1 March of the year 0 to 1 January 1970. */
	const epoch = 719_468;
	return 365 * marchYear + leapDays + daysOfMonths + day - 1 - epoch;
}

/**
 * When a day begins.
 * @param day  its number
 * @param zone IANA name
 * @returns milliseconds since 1970
 * @throws RangeError for a zone that is not known
 */
export function startOfDay(day: DayNumber, zone: string): number {
	const turn = day * dayMs + turnsAtHour * hourMs;
	const early = turn - furthestHours * hourMs;
	const late = turn + furthestHours * hourMs;
	const before = aheadMs(early, zone);
	const after = aheadMs(late, zone);
	if (before === after || turn - before < early) return turn - before;
	const change = firstChange(early, late, zone);
	if (turn - before < change) return turn - before;
	return Math.max(turn - after, change);
}

/** The second at which the zone's clock changes between two instants, of which it is told that they differ. */
function firstChange(from: number, to: number, zone: string): number {
	const before = aheadMs(from, zone);
	let [still, changed] = [Math.floor(from / secondMs), Math.ceil(to / secondMs)];
	while (changed - still > 1) {
		const middle = Math.floor((still + changed) / 2);
		if (aheadMs(middle * secondMs, zone) === before) still = middle;
		else changed = middle;
	}
	return changed * secondMs;
}

/**
 * The day that an instant belongs to.
 * @param at   milliseconds since 1970
 * @param zone IANA name
 * @throws RangeError for a zone that is not known
 */
export function dayOf(at: number, zone: string): DayNumber {
	let day = Math.floor((at + aheadMs(at, zone) - turnsAtHour * hourMs) / dayMs);
	while (startOfDay(day, zone) > at) day--;
	while (startOfDay(day + 1, zone) <= at) day++;
	return day;
}

/** The date on which a day begins: `2026-03-29`. */
export function dateOf(day: DayNumber): string {
	const shown = Object.fromEntries(
		clockOf('UTC')
			.formatToParts(day * dayMs)
			.map(({ type, value }) => [type, value])
	);
	return `${shown['year'].padStart(4, '0')}-${shown['month'].padStart(2, '0')}-${shown['day'].padStart(2, '0')}`;
}

/** The Monday with which the day's week begins. */
export function weekOf(day: DayNumber): DayNumber {
	// Day 0 was a Thursday.
	const sinceMonday = (((day + 3) % 7) + 7) % 7;
	return day - sinceMonday;
}
