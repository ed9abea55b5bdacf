import type { Sitter } from '$lib/server/live/wall';

const minuteMs = 60_000;

/** Whole minutes begun until a deadline, so that the last is one; 0 after it. @param now [ms since 1970], as is `deadline` */
export const minutesLeft = (deadline: number, now: number): number => Math.max(0, Math.ceil((deadline - now) / minuteMs));

/** How long ago something was: to ten seconds, then in minutes, hours and days. @param at [ms since 1970] */
export function agoText(at: number, now: number): string {
	const seconds = Math.max(0, Math.round((now - at) / 1000));
	if (seconds < 10) return 'just now';
	if (seconds < 60) return `${10 * Math.floor(seconds / 10)} s ago`;
	const hours = Math.floor(seconds / 3600);
	if (hours < 1) return `${Math.floor(seconds / 60)} min ago`;
	return hours < 48 ? `${hours} h ago` : `${Math.floor(hours / 24)} days ago`;
}

/** Where a sitter is in a paper of so many items. */
export function placeText({ place, done }: Pick<Sitter, 'place' | 'done'>, items: number): string {
	if (place === null) return 'No item opened yet';
	return `Item ${place.item} of ${items}, ${place.kind}${place.isDone ? ', over' : ''}. ${done} done.`;
}

const endings: Partial<Record<Sitter['state'], string>> = { 'handed-in': 'Handed in', time: 'Time ran out', closed: 'Closed' };
export const endingText = ({ state }: Pick<Sitter, 'state'>): string | null => endings[state] ?? null;
