/** What the wall shows, worked out from rows: pure, so that a moment of a sitting can be tried in a test. All times in ms since 1970. */
import { slotsOf } from '#shared/assessment/blueprint.ts';
import type { Breach } from '../callouts/followed.ts';
import { blueprintOf } from '../papers/kept-paper.ts';
import type { SittingRow } from '../database/schema.ts';
import type { BegunItem, Rows } from './rows.ts';
import { lastOf, type Last } from './last-action.ts';

/**
 * Without anything done for so long a sitter is shown as idle [min]. A judgement of ours: a callout takes three to eight minutes, most of
 * its checks are read in less than one, and thinking one over is not to be mistaken for sleep.
 */
export const idleAfterMinutes = 4;

const states = ['not-begun', 'sitting', 'handed-in', 'time', 'closed'] as const;
export type SitterState = (typeof states)[number];

export interface Flag {
	readonly kind: 'unsafe' | 'second-place' | 'idle';
	readonly says: string;
	/** Danger, as the safety rules have it. */
	readonly dangerous: boolean;
}

export interface Sitter {
	readonly member: string;
	readonly name: string;
	readonly state: SitterState;
	readonly hasJoined: boolean;
	/** The rest is null, 0 or empty until a sitting is begun. */
	readonly sitting: string | null;
	/** Which of the learner's attempts at the paper, from 1. */
	readonly number: number;
	readonly variant: number | null;
	/** The item touched last, from 1, and whether it is done with. */
	readonly place: { readonly item: number; readonly kind: 'callout' | 'drill'; readonly isDone: boolean } | null;
	/** Items done with. */
	readonly done: number;
	readonly deadline: number | null;
	readonly last: Last | null;
	readonly flags: readonly Flag[];
}

export interface Wall {
	/** Items of the paper, and sittings that a learner may begin. */
	readonly items: number;
	readonly attempts: number;
	readonly closes: number | null;
	/** `all`: who is on the register now; those who sat and left are counted in the states alone. */
	readonly counts: Readonly<Record<SitterState, number>> & { readonly all: number; readonly flagged: number };
	/** What needs a look first. */
	readonly sitters: readonly Sitter[];
}

/** What is known of the work in callouts besides the rows. */
export interface Known {
	/** The last action of an attempt, in words; null where that is not known yet. */
	did(attempt: string): string | null;
	/** Of a whole sitting. */
	breaches(sitting: string): readonly Breach[];
}

export function wallOf(rows: Rows, known: Known, now: number): Wall {
	const of = new Map(rows.sittings.map((one) => [one.member, one]));
	const sitters = rows.members.map((one) => sitterOf(one, of.get(one.id), rows, known, now)).sort(byNeed);
	const count = (state: SitterState) => sitters.filter((one) => one.state === state).length;
	return {
		items: slotsOf(blueprintOf(rows.paper)).length,
		attempts: rows.paper.attempts,
		closes: rows.paper.closes?.getTime() ?? null,
		counts: {
			...(Object.fromEntries(states.map((state) => [state, count(state)])) as Record<SitterState, number>),
			all: rows.members.filter(({ hasLeft }) => !hasLeft).length,
			flagged: sitters.filter(({ state, flags }) => state === 'sitting' && flags.length > 0).length
		},
		sitters
	};
}

function sitterOf(one: Rows['members'][number], row: SittingRow | undefined, rows: Rows, known: Known, now: number): Sitter {
	const { id: member, name, hasJoined } = one;
	const who = { member, name, hasJoined };
	const none = { sitting: null, number: 0, variant: null, place: null, done: 0, deadline: null, last: null, flags: [] };
	if (!row) return { ...who, state: 'not-begun', ...none };
	const items = rows.items.filter(({ sitting }) => sitting === row.id);
	const events = rows.events.filter(({ sitting }) => sitting === row.id);
	const last = lastOf(row, items, events, known);
	const place = latestOf(items);
	return {
		...who,
		state: stateOf(row),
		sitting: row.id,
		number: row.number,
		variant: row.variant,
		place: place && { item: place.slot + 1, kind: place.kind, isDone: place.ended !== null },
		done: items.filter(({ ended }) => ended !== null).length,
		deadline: row.deadline.getTime(),
		last,
		flags: [
			...unsafe(known.breaches(row.id)),
			...secondPlace(events.filter(({ kind }) => kind === 'second-seat').length),
			...(row.ended === null ? idle(last, now) : [])
		]
	};
}

function stateOf({ ended, endedBy }: SittingRow): SitterState {
	if (ended === null) return 'sitting';
	return endedBy === 'assessor' ? 'closed' : (endedBy ?? 'time');
}

/** When anything was last done with an item. */
const touched = ({ began, ended, lastAt }: BegunItem): number => Math.max(began, ended ?? 0, lastAt ?? 0);
const latestOf = (items: readonly BegunItem[]): BegunItem | null =>
	items.reduce<BegunItem | null>((best, one) => (best === null || touched(one) >= touched(best) ? one : best), null);

/** One flag a rule, the dangerous first, with how often. */
function unsafe(breaches: readonly Breach[]): Flag[] {
	const rules = [...new Set(breaches.map(({ says }) => says))].map((says) => breaches.filter((one) => one.says === says));
	return rules
		.map((same): Flag => ({ kind: 'unsafe', says: times(same[0]!.says, same.length), dangerous: same[0]!.dangerous }))
		.sort((a, b) => Number(b.dangerous) - Number(a.dangerous));
}

function secondPlace(count: number): Flag[] {
	return count === 0 ? [] : [{ kind: 'second-place', says: times('Another place was tried.', count), dangerous: false }];
}

function idle(last: Last, now: number): Flag[] {
	if (now - last.at < idleAfterMinutes * 60_000) return [];
	return [{ kind: 'idle', says: `Nothing done for ${idleAfterMinutes} minutes or more.`, dangerous: false }];
}

const times = (says: string, count: number): string => (count === 1 ? says : `${says} ${count} times.`);

/** Danger, other flags, the rest of those who sit by the time they have left, those who have not begun, those who are through. */
function need({ state, flags }: Sitter): number {
	if (state === 'not-begun') return 4;
	if (state !== 'sitting') return 5;
	const order = (['unsafe', 'second-place', 'idle'] as const).findIndex((kind) => flags.some((flag) => flag.kind === kind));
	if (flags.some(({ dangerous }) => dangerous)) return 0;
	return order === -1 ? 3 : order === 0 ? 1 : 2;
}

const byNeed = (a: Sitter, b: Sitter): number =>
	need(a) - need(b) ||
	(need(a) === 3 ? (a.deadline ?? 0) - (b.deadline ?? 0) : 0) ||
	a.name.localeCompare(b.name, 'en') ||
	(a.member < b.member ? -1 : 1);
