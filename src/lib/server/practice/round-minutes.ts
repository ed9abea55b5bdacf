/** What a round and its jobs are thought to take. Callouts show their mean, so that none is told from another by its length. */
import type { RoundItem } from '#shared/review/round/round.ts';

/** A job of a round, and what came of it. */
interface Job {
	readonly wanted: RoundItem;
	readonly reviews: readonly { readonly minutes: number }[];
}

/** What it is thought to take [min]. */
export function thought(wanted: RoundItem, all: readonly Pick<Job, 'wanted'>[]): number {
	const alike = wanted.kind === 'callout' ? all.filter((one) => one.wanted.kind === 'callout').map((one) => one.wanted) : [wanted];
	return alike.reduce((sum, { minutes }) => sum + minutes, 0) / alike.length;
}

/**
 * Whole minutes that a round takes: what was taken, and of what is not done what it is thought to take. Rounded once, so that what is
 * offered and its sheet agree.
 */
export function minutesInAll(items: readonly Job[]): number {
	return Math.max(1, Math.round(items.reduce((sum, { wanted, reviews }) => sum + (reviews[0]?.minutes ?? thought(wanted, items)), 0)));
}
