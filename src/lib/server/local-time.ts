/** Times as a form writes them, by the clock on somebody's wall and without a zone, against instants. */
import { aheadMs } from '#shared/review/memory/learner-day.ts';

const shape = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})(?::\d{2}(?:\.\d+)?)?$/;
const dayMs = 86_400_000;

/**
 * What the clock of a zone shows at an instant, to the minute: `2026-03-29T09:30`.
 * @param at   [ms since 1970]
 * @param zone IANA name
 */
export function localTime(at: number, zone: string): string {
	return new Date(at + aheadMs(at, zone)).toISOString().slice(0, 16);
}

/**
 * The instant at which the clock of a zone shows a time. Where clocks are put back it shows some times twice: the first is meant. Where
 * they are put forward it leaves some out: such a time is as long after the change as it was written after the hour left out began.
 * @param local as a form writes it; seconds are passed over
 * @param zone  IANA name
 * @returns [ms since 1970]; null for what is no time of the calendar
 */
export function instantOf(local: string, zone: string): number | null {
	const [, ...parts] = shape.exec(local.trim()) ?? [];
	if (parts.length === 0) return null;
	const [year, month, day, hour, minute] = parts.map(Number) as [number, number, number, number, number];
	const wall = Date.UTC(year, month - 1, day, hour, minute);
	// A day or an hour that there is not is carried over by the language: 31 April reads back as another.
	if (new Date(wall).toISOString().slice(0, 16) !== `${local.trim().slice(0, 16)}`) return null;
	const [before, after] = [aheadMs(wall - dayMs, zone), aheadMs(wall + dayMs, zone)];
	const shows = (at: number) => at + aheadMs(at, zone) === wall;
	return [wall - before, wall - after].find(shows) ?? wall - before;
}

/** The same time on the clock so many days later. */
export function daysLater(local: string, days: number): string {
	return new Date(Date.parse(`${local}Z`) + days * dayMs).toISOString().slice(0, 16);
}
