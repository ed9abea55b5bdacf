/** Attempts brought to where their stored actions lead. The latest few are kept; any other is played again from the disk. */
import { z } from 'zod';
import { action } from '#shared/callout/action.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { makeCallout, NoComplaint } from '#shared/callout/make.ts';
import { RefusedAction, replay } from '#shared/callout/replay.ts';
import { UnknownFault } from '#shared/callout/sample-machine.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { viewOf } from '#shared/callout/view-of.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { attemptsIn } from '../database/attempts.ts';
import type { Database } from '../database/open.ts';
import type { Attempt } from '../database/schema.ts';
import { earlierPacksIn } from '../packs/earlier-packs.ts';
import { Recent } from '../recent.ts';
import { missing, unplayable, type Missing, type RunningCallout, type Unplayable } from './outcomes.ts';

export interface Live {
	readonly outcome: 'live';
	readonly attempt: Attempt;
	readonly callout: Callout;
	readonly state: CalloutState;
	/** JSON of each stored action. */
	readonly path: readonly string[];
}

export type BroughtUp = Live | Unplayable | Missing;

export type LiveAttempts = ReturnType<typeof liveAttemptsIn>;

/** @param known  the packs of today by family; an attempt made from an earlier one is replayed from the pack kept with it */
export function liveAttemptsIn(db: Database, known: ReadonlyMap<string, Pack>) {
	const attempts = attemptsIn(db);
	const packOf = earlierPacksIn(db, known);
	const live = new Recent<Live>(500);

	function keep(one: Live): Live {
		live.set(one.attempt.id, one);
		return one;
	}

	function bringUp(attemptId: string, learnerId: string): BroughtUp {
		const kept = live.get(attemptId);
		// Whose it is may have changed since it was kept: a guest who signs in brings the work along.
		if (kept?.attempt.learner === learnerId) return kept;
		const attempt = attempts.find(attemptId);
		if (!attempt || attempt.learner !== learnerId) return missing;
		const pack = packOf(attempt.family, attempt.packHash);
		if (!pack) return unplayable;
		const path = attempts.actions(attemptId).map(({ content }) => content);
		const played = playAgain(pack, attempt, path);
		return played ? keep({ outcome: 'live', attempt, ...played, path }) : unplayable;
	}

	return {
		bringUp,
		keep,
		/** What is in memory is behind what is on the disk. */
		forget: (attemptId: string): void => live.delete(attemptId)
	};
}

export function shown({ attempt, callout, state, path }: Live): RunningCallout {
	return { attemptId: attempt.id, seq: path.length, view: viewOf(callout, state) };
}

/** Where stored actions lead; null where one of them is nothing that can be done there any more. */
function playAgain(pack: Pack, { seed, fault }: Attempt, path: readonly string[]): Pick<Live, 'callout' | 'state'> | null {
	try {
		const callout = makeCallout(pack, seed, fault ?? undefined);
		const actions = path.map((content) => action.parse(JSON.parse(content)));
		return { callout, state: replay(callout, actions) };
	} catch (error) {
		if ([UnknownFault, NoComplaint, RefusedAction, z.ZodError, SyntaxError].some((kind) => error instanceof kind)) return null;
		throw error;
	}
}
