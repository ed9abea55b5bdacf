/**
 * The calendar of due rounds, held to RFC 5545: content lines end CRLF and are folded at 75 octets (3.1), a calendar has PRODID and VERSION
 * (3.6), an event has UID and DTSTAMP (3.6.1), an alarm that displays has a trigger and a description (3.6.6). Section numbers from memory.
 */
import { describe, expect, it } from 'vitest';
import { calendarOf, endReminders, hasReminders, newReminders } from '$lib/server/practice/reminders.ts';
import { practice } from '$lib/server/practice/practice.ts';
import { dateOf, dayOf } from '#shared/review/memory/learner-day.ts';
import type { Review } from '#shared/review/skill.ts';
import { oneServer, someoneWho } from './someone-practised.ts';

oneServer();
const origin = 'http://127.0.0.1:4700';
const monday = Date.parse('2026-01-05T19:00:00Z');
const skills = () => [...practice().plans.skills.keys()];
const shown = (skill: string, recall: Review['recall'] = 'sound', at = monday): Review => ({ skill, at, recall, minutes: 3 });

/** Lines unfolded, and cut into properties. */
function parsed(text: string) {
	const lines = text.replaceAll('\r\n ', '').split('\r\n').filter(Boolean);
	return lines.map((line) => {
		const cut = line.search(/[:]/);
		const [name, ...parameters] = line.slice(0, cut).split(';');
		return { name, parameters, value: line.slice(cut + 1) };
	});
}

/** Each component of the kind as a map of its own properties. */
function components(text: string, kind: string): Map<string, string>[] {
	const found: Map<string, string>[] = [];
	const open: string[] = [];
	for (const { name, value } of parsed(text)) {
		if (name === 'BEGIN') {
			open.push(value);
			if (value === kind) found.push(new Map());
		} else if (name === 'END') expect(open.pop()).toBe(value);
		else if (open.at(-1) === kind) found.at(-1)!.set(name, value);
	}
	expect(open).toEqual([]);
	return found;
}

describe('the calendar of due rounds', () => {
	it('has the lines and the properties that the standard asks for', () => {
		const secret = newReminders(
			someoneWho(
				...skills()
					.slice(0, 4)
					.map((skill, i) => shown(skill, i % 2 ? 'lost' : 'sound'))
			)
		);
		const text = calendarOf(secret, origin, monday)!;
		expect(text.endsWith('\r\nEND:VCALENDAR\r\n')).toBe(true);
		expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
		for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
		const [calendar] = components(text, 'VCALENDAR');
		expect(calendar.get('VERSION')).toBe('2.0');
		expect(calendar.get('PRODID')).toMatch(/Provewell/);
		const events = components(text, 'VEVENT');
		expect(events.length).toBeGreaterThan(0);
		for (const event of events) {
			expect(event.get('DTSTAMP')).toBe('20260105T190000Z');
			expect(event.get('DTSTART')).toMatch(/^2026\d{4}$/);
			expect(event.get('URL')).toBe(`${origin}/tonight`);
			// An entry that is no appointment blocks no time (3.8.2.7).
			expect(event.get('TRANSP')).toBe('TRANSPARENT');
		}
		expect(new Set(events.map((event) => event.get('UID'))).size).toBe(events.length);
		const alarms = components(text, 'VALARM');
		expect(alarms).toHaveLength(events.length);
		for (const alarm of alarms)
			expect([alarm.get('ACTION'), alarm.get('TRIGGER'), alarm.get('DESCRIPTION')]).toEqual(['DISPLAY', 'PT19H', 'Round due']);
	});

	it('rings at seven in the evening of the day itself: so long after its start (3.2.14), not after its end, which is the next midnight', () => {
		const text = calendarOf(newReminders(someoneWho(shown(skills()[0]!))), origin, monday)!;
		const triggers = parsed(text).filter(({ name }) => name === 'TRIGGER');
		expect(triggers).toEqual([{ name: 'TRIGGER', parameters: ['RELATED=START'], value: 'PT19H' }]);
	});

	it('lists each night on which something falls due, with how much', () => {
		const id = someoneWho(
			...skills()
				.slice(0, 5)
				.map((skill, i) => shown(skill, i < 2 ? 'lost' : 'fluent'))
		);
		const { zone } = practice().memories.schedulerOf(id);
		const wanted = new Map<string, number>();
		for (const { due } of practice().memories.of(id).values()) {
			const date = dateOf(dayOf(due, zone)).replaceAll('-', '');
			wanted.set(date, (wanted.get(date) ?? 0) + 1);
		}
		expect(wanted.size).toBeGreaterThan(1);
		const events = components(calendarOf(newReminders(id), origin, monday)!, 'VEVENT');
		expect(new Map(events.map((event) => [event.get('DTSTART')!, Number(event.get('SUMMARY')!.match(/\d+/)![0])]))).toEqual(wanted);
	});

	it('puts all that waits already on tonight', () => {
		const id = someoneWho(
			...skills()
				.slice(0, 6)
				.map((skill) => shown(skill, 'lost'))
		);
		const later = monday + 40 * 86_400_000;
		const events = components(calendarOf(newReminders(id), origin, later)!, 'VEVENT');
		expect(events.map((event) => [event.get('DTSTART'), event.get('SUMMARY')])).toEqual([['20260214', 'Round due: 6 skills']]);
	});

	it('lies at an address of which only a digest is kept, and which can be renewed and ended', () => {
		const id = someoneWho(shown(skills()[0]!));
		expect(hasReminders(id)).toBe(false);
		const first = newReminders(id);
		expect(calendarOf(first, origin, monday)).not.toBeNull();
		const second = newReminders(id);
		expect(calendarOf(first, origin, monday)).toBeNull();
		expect(calendarOf(second, origin, monday)).not.toBeNull();
		endReminders(id);
		expect(hasReminders(id)).toBe(false);
		expect(calendarOf(second, origin, monday)).toBeNull();
		expect(calendarOf('', origin, monday)).toBeNull();
	});

	it('tells nothing but how many are due', () => {
		const id = someoneWho(...skills().map((skill) => shown(skill)));
		const text = calendarOf(newReminders(id), origin, monday)!;
		expect(text).not.toContain(id);
		for (const { name } of practice().plans.skills.values()) expect(text).not.toContain(name);
	});
});
