/** Reminders without a third party: a calendar that lists the nights on which practice is due, at an address that only its owner knows. */
import { randomBytes } from 'node:crypto';
import { eq } from 'drizzle-orm';
import ical, { ICalAlarmRelatesTo, ICalAlarmType, ICalCalendarMethod, ICalEventTransparency } from 'ical-generator';
import { dateOf, dayOf } from '#shared/review/memory/learner-day.ts';
import { database } from '../database/open.ts';
import { learner } from '../database/schema.ts';
import { digestOf } from '../digest.ts';
import { practice } from './practice.ts';

/** How far ahead the calendar looks: skills shown tonight come back after that, so later nights would only mislead. */
const daysAhead = 60;
/** The alarm rings so long after the day begins: seven in the evening, where the calendar's own day begins at midnight. */
const alarmAfterS = 19 * 3600;

/** Whether the learner has an address for reminders. The address itself is not kept. */
export function hasReminders(learnerId: string): boolean {
	return Boolean(database().select({ calendar: learner.calendar }).from(learner).where(eq(learner.id, learnerId)).get()?.calendar);
}

/** Makes a new secret for the address; the one before is of no use from then on. @returns the secret, which is shown once and not kept */
export function newReminders(learnerId: string): string {
	const secret = randomBytes(24).toString('base64url');
	database()
		.update(learner)
		.set({ calendar: digestOf(secret) })
		.where(eq(learner.id, learnerId))
		.run();
	return secret;
}

/** Whether a secret is that of the learner's address as it is now. */
export function isOwnSecret(learnerId: string, secret: string): boolean {
	const kept = database().select({ calendar: learner.calendar }).from(learner).where(eq(learner.id, learnerId)).get()?.calendar;
	return kept === digestOf(secret);
}

/** From then on the address leads nowhere. */
export function endReminders(learnerId: string): void {
	database().update(learner).set({ calendar: null }).where(eq(learner.id, learnerId)).run();
}

/**
 * The calendar (RFC 5545): an all-day entry for each night on which something falls due, all that waits already on tonight's.
 * @param origin  of this server, for the way back: `https://example.org`
 * @returns null where no learner has such an address
 */
export function calendarOf(secret: string, origin: string, now = Date.now()): string | null {
	const owner = database()
		.select({ id: learner.id, zone: learner.zone })
		.from(learner)
		.where(eq(learner.calendar, digestOf(secret)))
		.get();
	if (!owner) return null;
	const calendar = ical({
		name: 'Provewell: rounds due',
		method: ICalCalendarMethod.PUBLISH,
		prodId: { company: 'Provewell', product: 'rounds due' },
		ttl: 6 * 3600
	});
	for (const [day, count] of dueByDay(owner, now)) {
		const date = dateOf(day);
		const event = calendar.createEvent({
			id: `${date}-${digestOf(owner.id).slice(0, 16)}@provewell`,
			stamp: new Date(now),
			start: new Date(`${date}T00:00:00Z`),
			end: new Date(`${dateOf(day + 1)}T00:00:00Z`),
			allDay: true,
			timezone: 'UTC',
			summary: count === 1 ? 'Round due: 1 skill' : `Round due: ${count} skills`,
			description: 'Practice comes back before it is forgotten. A short round is enough.',
			// The day stays free for whoever looks for a time to meet.
			transparency: ICalEventTransparency.TRANSPARENT,
			url: `${origin}/tonight`
		});
		// Said last: setting the time would make it count from the day's end again.
		event
			.createAlarm({ type: ICalAlarmType.display, triggerAfter: alarmAfterS, description: 'Round due' })
			.relatesTo(ICalAlarmRelatesTo.start);
	}
	// The library leaves the last line without its end.
	return `${calendar.toString().trimEnd()}\r\n`;
}

/** Learner's days and how many skills fall due on each, the earliest first. */
function dueByDay({ id, zone }: { id: string; zone: string }, now: number): [number, number][] {
	const { memories, plans } = practice();
	const today = dayOf(now, zone);
	const byDay = new Map<number, number>();
	for (const { skill, due } of memories.of(id).values()) {
		const day = Math.max(today, dayOf(due, zone));
		if (plans.skills.has(skill) && day <= today + daysAhead) byDay.set(day, (byDay.get(day) ?? 0) + 1);
	}
	return [...byDay].sort(([a], [b]) => a - b);
}
