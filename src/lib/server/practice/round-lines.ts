/**
 * A round as its learner may see it. Of a callout that is not done, only the family and why it is there: its skill names the area of the
 * hidden fault, and what it is thought to take would tell one skill from another, so all of them show their mean.
 */
import type { RoundItem } from '#shared/review/round/round.ts';
import type { Item, ItemState } from './round-items.ts';
import { thought } from './round-minutes.ts';
import { shownOf, type Shown, type Telling } from './shown.ts';

export interface RoundLine {
	readonly place: number;
	readonly kind: RoundItem['kind'];
	/** `A callout on ...`, `A drill: ...`. */
	readonly what: string;
	readonly why: RoundItem['why'];
	/** What it is thought to take, in whole minutes. */
	readonly minutes: number;
	/** What it took by the learner's own clock [min]; null before that is known. */
	readonly took: number | null;
	readonly state: ItemState;
	readonly shown: readonly Shown[];
	/** Where what came of it is explained, or where it can be gone on with. */
	readonly href: string | null;
}

/**
 * @param all       the round that it is of
 * @param families  short names by id
 */
export function lineOf(
	{ row, wanted, state, reviews }: Item,
	all: readonly Item[],
	telling: Telling,
	families: ReadonlyMap<string, string>
): RoundLine {
	const { place } = row;
	const { kind, why } = wanted;
	const isDone = state === 'done' || state === 'marking';
	const what =
		wanted.kind === 'callout'
			? `A callout on ${families.get(wanted.family) ?? 'an appliance no longer in stock'}`
			: `A drill: ${telling.skills.get(wanted.skill)?.name ?? 'of a kind no longer asked'}`;
	const page =
		row.attempt !== null ? `/callout/${row.attempt}${isDone ? '/debrief' : ''}` : row.drill !== null ? `/drill/${row.drill}` : null;
	return {
		place,
		kind,
		what,
		why,
		minutes: Math.max(1, Math.round(thought(wanted, all))),
		took: reviews[0]?.minutes ?? null,
		state,
		shown: shownOf(reviews, telling),
		href: state === 'over' ? null : page
	};
}
