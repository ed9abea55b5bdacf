/** A round as its pages show it. */
import { leftOver } from '#shared/review/round/left-over.ts';
import type { RoundRow } from '../database/schema.ts';
import { eveningWords } from './nights.ts';
import { isDone, nextOf, type Item } from './round-items.ts';
import { lineOf, type RoundLine } from './round-lines.ts';
import { minutesInAll } from './round-minutes.ts';
import { shownOf, type Shown, type Telling } from './shown.ts';

export type NextJob = Pick<RoundLine, 'place' | 'what'>;

/** The families of a refresher, as they are kept with its round. */
export interface RefresherFamilies {
	readonly met: string;
	readonly known: readonly string[];
}

/** A refresher by its round and the short name of the family that is met. */
export interface RefresherName {
	readonly id: string;
	readonly met: string;
}

export interface RoundView {
	/** Where it is a refresher. */
	readonly refresher: RefresherName | null;
	readonly isOpen: boolean;
	/** What the learner had to spare [min]. */
	readonly minutes: number;
	/** What it takes in all, in whole minutes. */
	readonly inAll: number;
	/** The learner's day on which it was begun: `Wednesday 25 November`. */
	readonly evening: string;
	readonly lines: readonly RoundLine[];
	readonly next: NextJob | null;
	/** Whether there is more than one kind of job to tell apart. Known from what is shown, so that it tells nothing of what is hidden. */
	readonly isMixed: boolean;
	/** Whether something done is still being worked out. */
	readonly isMarking: boolean;
	/** Skills due besides. */
	readonly left: number;
	/** Every skill that the round has shown, as it was shown last. */
	readonly shown: readonly Shown[];
}

/** @param families  short names by id */
export function roundView(round: RoundRow, items: readonly Item[], telling: Telling, families: ReadonlyMap<string, string>): RoundView {
	const { skills, memories, zone, now } = telling;
	const lines = items.map((item) => lineOf(item, items, telling, families));
	const isOpen = round.ended === null;
	const next = isOpen ? nextOf(items) : undefined;
	const waiting = new Set(items.filter((item) => !isDone(item)).map(({ row }) => row.skill));
	const lastShown = new Map(items.flatMap(({ reviews }) => reviews).map((review) => [review.skill, review]));
	return {
		refresher: refresherOf(round, families),
		isOpen,
		minutes: round.minutes,
		inAll: minutesInAll(items),
		evening: eveningWords(round.created.getTime(), zone),
		lines,
		next: next ? { place: next.row.place, what: lines[next.row.place]!.what } : null,
		isMixed: lines.filter(({ kind }) => kind === 'callout').length > 1 || new Set(lines.map(({ what }) => what)).size > 1,
		isMarking: items.some(({ state }) => state === 'marking'),
		left: leftOver(
			[...memories.values()].filter(({ skill }) => skills.has(skill)),
			waiting,
			now
		),
		shown: shownOf([...lastShown.values()], telling)
	};
}

function refresherOf({ id, refresher }: RoundRow, families: ReadonlyMap<string, string>): RefresherName | null {
	if (refresher === null) return null;
	const { met } = JSON.parse(refresher) as RefresherFamilies;
	return { id, met: families.get(met) ?? 'an appliance no longer in stock' };
}
