/** Nights in the words of a page, by the learner's own days. */
import { dateOf, dayOf } from '#shared/review/memory/learner-day.ts';

const daysOfWeek = 7;

/**
 * The night on which something is due, seen from now: `tonight` where it has come, else `tomorrow night`, `on Thursday night`,
 * `on Thursday 12 March`, with the year where it is another.
 * @param due  [ms since 1970]
 * @param now  [ms since 1970]
 * @param zone IANA name
 */
export function nightWords(due: number, now: number, zone: string): string {
	const [today, day] = [dayOf(now, zone), dayOf(due, zone)];
	if (day <= today) return 'tonight';
	if (day === today + 1) return 'tomorrow night';
	const [date, thisDate] = [dateOf(day), dateOf(today)];
	if (day < today + daysOfWeek) return `on ${written(date, { weekday: 'long' })} night`;
	const isThisYear = date.slice(0, 4) === thisDate.slice(0, 4);
	return `on ${written(date, { weekday: 'long', day: 'numeric', month: 'long', ...(!isThisYear && { year: 'numeric' }) })}`;
}

/** The evening that a learner's day is: `Wednesday 25 November`. */
export function eveningWords(at: number, zone: string): string {
	return written(dateOf(dayOf(at, zone)), { weekday: 'long', day: 'numeric', month: 'long' });
}

/** The learner's day with its year, for what is kept on paper: `Wednesday 25 November 2026`. */
export function dateWords(at: number, zone: string): string {
	return written(dateOf(dayOf(at, zone)), { weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' });
}

function written(date: string, parts: Intl.DateTimeFormatOptions): string {
	return new Intl.DateTimeFormat('en-GB', { ...parts, timeZone: 'UTC' }).format(new Date(`${date}T12:00:00Z`)).replace(',', '');
}
