/** Times of a paper in the words of a page, by the reader's own zone. The server says them, so that its clock alone is believed. */

/** `14:05`. @param at [ms since 1970] @param zone IANA name */
export function clockTime(at: number, zone: string): string {
	return written(at, zone, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
}

/** `14:05` on the day of `now`, else `14:05 on Thursday 12 March`. */
export function timeWords(at: number, now: number, zone: string): string {
	const day = (one: number) => written(one, zone, { weekday: 'long', day: 'numeric', month: 'long' });
	return day(at) === day(now) ? `${clockTime(at, zone)} today` : `${clockTime(at, zone)} on ${day(at)}`;
}

function written(at: number, zone: string, parts: Intl.DateTimeFormatOptions): string {
	return new Intl.DateTimeFormat('en-GB', { ...parts, timeZone: zone }).format(at).replace(',', '');
}
