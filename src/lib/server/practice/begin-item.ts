/** Begins what a round holds: once, however many tabs ask for it. */
import { NoComplaint } from '#shared/callout/make.ts';
import { mostSeed } from '#shared/quantity/random.ts';
import type { RoundItem } from '#shared/review/round/round.ts';
import type { Callouts } from '../callouts/callouts.ts';
import type { Database } from '../database/open.ts';
import { roundsIn, type ItemRow } from '../database/rounds.ts';
import type { Drills } from './drills.ts';
import type { Item } from './round-items.ts';

/** `making`: the drill waits for an evidence table; `over`: there is nothing to go on with. */
export type GoneOn =
	{ readonly outcome: 'callout' | 'drill'; readonly id: string } | { readonly outcome: 'making' } | { readonly outcome: 'over' };

export const over = { outcome: 'over' } as const;

/** The drill has nothing to ask about after all, and cannot be played. */
type Nothing = { readonly outcome: 'nothing' };

type CalloutItem = Extract<RoundItem, { readonly kind: 'callout' }>;

const mostDraws = 20;

/** Where an item that has been begun is gone on with; null before that. */
export function begunAs({ attempt, drill }: Pick<ItemRow, 'attempt' | 'drill'>): GoneOn | null {
	if (attempt !== null) return { outcome: 'callout', id: attempt };
	return drill === null ? null : { outcome: 'drill', id: drill };
}

export function beginItemIn(db: Database, callouts: Callouts, drills: Drills) {
	const rounds = roundsIn(db);

	/** @returns the attempt; null where this server has no such family or fault */
	function startCallout(learnerId: string, { family, fault, seed }: CalloutItem, now: number): string | null {
		for (let draw = 0; ; draw++) {
			try {
				const started = callouts.start(learnerId, { family, fault, seed: (seed + draw) % (mostSeed + 1) }, now);
				return started.outcome === 'started' ? started.attemptId : null;
			} catch (error) {
				// Of the machines of this seed nobody would complain: the next one has others.
				if (!(error instanceof NoComplaint) || draw >= mostDraws) throw error;
			}
		}
	}

	/** Begins an item that has not been begun, unless another tab was first: then to where that one leads. */
	return async (learnerId: string, { row, wanted }: Pick<Item, 'row' | 'wanted'>, now: number): Promise<GoneOn | Nothing> => {
		const { round, place } = row;
		const already = () => begunAs(rounds.items(round)[place]!);
		if (wanted.kind === 'drill') {
			const { generator, family, seed } = wanted;
			const asked = await drills.ask(learnerId, { generator, family, seed }, now, {
				isWanted: () => already() === null,
				asked: (id) => rounds.played(round, place, { drill: id })
			});
			if (asked.outcome === 'making') return asked;
			return asked.outcome === 'nothing' ? { outcome: 'nothing' } : (already() ?? over);
		}
		return db.transaction(
			() => {
				const begun = already();
				if (begun) return begun;
				const id = startCallout(learnerId, wanted, now);
				if (id === null) return over;
				rounds.played(round, place, { attempt: id });
				return { outcome: 'callout', id } as const;
			},
			{ behavior: 'immediate' }
		);
	};
}
