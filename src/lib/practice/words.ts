import type { Recall } from '#shared/marking/recall.ts';
import { dateOf } from '#shared/review/memory/learner-day.ts';
import type { Remembered } from '#shared/review/progress/skills-map.ts';
import type { Judged } from '#shared/review/drills/drill.ts';
import type { RoundItem } from '#shared/review/round/round.ts';

/** What the words for a recall mean, whatever showed it. */
export const recallWords: Readonly<Record<Recall, string>> = {
	lost: 'not there tonight',
	laboured: 'there, with effort',
	sound: 'there when it was needed',
	fluent: 'there at once'
};

/** Why something is in a round. */
export const whyWords: Readonly<Record<RoundItem['why'], string>> = {
	due: 'Due',
	new: 'New',
	early: 'Ahead of time',
	differs: 'Where it differs'
};

/** What an answer to a drill is called. What is not lost though not right was near enough to count as laboured. */
export const verdictWord = ({ right, recall }: Pick<Judged, 'right' | 'recall'>): string =>
	right ? 'Right' : recall === 'lost' ? 'Not right' : 'Nearly right';

/** `1 drill`, `3 drills`. */
export function counted(count: number, one: string, many = `${one}s`): string {
	return `${count} ${count === 1 ? one : many}`;
}

/** How a skill was shown last: `lost tonight`, `laboured last night`, `sound on 3 March`; with the year where that is long ago. */
export function shownWords({ shown, night, nightsAgo }: Pick<Remembered, 'shown' | 'night' | 'nightsAgo'>): string {
	if (nightsAgo <= 1) return `${shown} ${nightsAgo === 1 ? 'last night' : 'tonight'}`;
	const isLongAgo = nightsAgo > 300;
	const date = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', ...(isLongAgo && { year: 'numeric' }), timeZone: 'UTC' });
	return `${shown} on ${date.format(new Date(dateOf(night)))}`;
}
