import type { Recall } from '#shared/marking/recall.ts';
import type { RoundItem } from '#shared/review/round.ts';

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

/** `1 drill`, `3 drills`. */
export function counted(count: number, one: string, many = `${one}s`): string {
	return `${count} ${count === 1 ? one : many}`;
}
