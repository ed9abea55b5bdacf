/** Callouts of learners: the core's pure functions joined to the database. Everything is a function of pack, seed and stored actions. */
import { randomBytes, randomInt } from 'node:crypto';
import { act } from '#shared/callout/act.ts';
import { action, type Action } from '#shared/callout/action.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { replay } from '#shared/callout/replay.ts';
import { mostSeed } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { isLegibleText } from '../accounts/names.ts';
import { attemptsIn, OutOfTurn } from '../database/attempts.ts';
import { database, type Database } from '../database/open.ts';
import type { Attempt } from '../database/schema.ts';
import { earlierPacksIn } from '../packs/earlier-packs.ts';
import { packToKeep } from '../packs/kept-packs.ts';
import { packs } from '../packs/packs.ts';
import { notInSittings } from '../sittings/rules.ts';
import { explainedIn } from './explained.ts';
import { followedIn } from './followed.ts';
import { liveAttemptsIn, shown, type Live } from './live.ts';
import type { Acted, Found, RunningCallout, Started } from './outcomes.ts';

export type Callouts = ReturnType<typeof calloutsIn>;

/**
 * @param db     where attempts are kept
 * @param known  the packs of today by family; an attempt made from an earlier one is replayed from the pack kept with it
 */
export function calloutsIn(db: Database, known: ReadonlyMap<string, Pack>) {
	const attempts = attemptsIn(db);
	const live = liveAttemptsIn(db, known);
	const { bringUp, keep } = live;
	const packOf = earlierPacksIn(db, known);

	return {
		...explainedIn(db, live),
		...followedIn(live),

		/** Why no callout can be started on a family, in a sentence; null where one can. */
		noSuchFamily: (family: string): string | null =>
			known.has(family) ? null : `No appliance family "${family}" here; there is ${[...known.keys()].join(', ')}.`,

		/**
		 * Starts a callout.
		 * @param choice.seed   whole number from 0 to `mostSeed`; drawn where left out
		 * @param choice.fault  id of the fault to hide; the seed's own where left out
		 * @param choice.packHash  of the pack to make it from; today's of the family where left out
		 * @param now  [ms since 1970]
		 */
		start(learnerId: string, choice: { family: string; seed?: number; fault?: string; packHash?: string }, now = Date.now()): Started {
			const pack = choice.packHash === undefined ? known.get(choice.family) : packOf(choice.family, choice.packHash);
			if (!pack) return { outcome: 'invalid', says: this.noSuchFamily(choice.family) ?? 'That version of the appliance is gone.' };
			const { seed = randomInt(mostSeed + 1), fault = null } = choice;
			if (!Number.isInteger(seed) || seed < 0 || seed > mostSeed)
				return { outcome: 'invalid', says: `A seed is a whole number from 0 to ${mostSeed}.` };
			if (fault !== null && !pack.faults.some(({ id }) => id === fault)) {
				return { outcome: 'invalid', says: `No fault "${fault}" in the family "${choice.family}".` };
			}
			const callout = makeCallout(pack, seed, fault ?? undefined);
			const attempt: Attempt = {
				id: randomBytes(16).toString('base64url'),
				learner: learnerId,
				family: choice.family,
				packHash: pack.hash,
				seed,
				fault,
				drawn: fault === null ? (callout.fault?.id ?? null) : null,
				created: new Date(now),
				ended: null,
				reviewed: null
			};
			attempts.keepPack({ hash: pack.hash, family: choice.family, content: packToKeep(pack), created: attempt.created });
			attempts.add(attempt);
			keep({ outcome: 'live', attempt, callout, state: replay(callout, []), path: [] });
			return { outcome: 'started', attemptId: attempt.id };
		},

		/** The callout as it stands; `missing` where this learner has none by that id. */
		find(attemptId: string, learnerId: string): Found {
			const one = bringUp(attemptId, learnerId);
			return one.outcome === 'live' ? { outcome: 'standing', ...shown(one) } : one;
		},

		/** @returns the callout as it stands, or null where this learner has none by that id that can be played */
		load(attemptId: string, learnerId: string): RunningCallout | null {
			const one = bringUp(attemptId, learnerId);
			return one.outcome === 'live' ? shown(one) : null;
		},

		/**
		 * Does one action: worked out, stored, and only then answered.
		 * @param wanted  what came from outside, unchecked
		 * @param seq     the number that the page was given with the callout it shows
		 * @param now     [ms since 1970]
		 */
		act(attemptId: string, learnerId: string, wanted: unknown, seq: number, now = Date.now()): Acted {
			const one = bringUp(attemptId, learnerId);
			if (one.outcome !== 'live') return one;
			const parsed = action.safeParse(wanted);
			if (!parsed.success) return { outcome: 'invalid', says: 'That is nothing that can be done in a callout.', ...shown(one) };
			const said = JSON.stringify(parsed.data satisfies Action);
			if (seq !== one.path.length) return outOfTurn(one, said, seq);
			const barred = unreadable(parsed.data) ?? notInSittings(db, attemptId, parsed.data, now);
			if (barred) return { outcome: 'refused', says: barred, ...shown(one) };
			const state = act(one.callout, one.state, parsed.data);
			if ('refused' in state) return { outcome: 'refused', says: state.refused, ...shown(one) };
			const at = new Date(now);
			try {
				attempts.append({ attempt: attemptId, seq, kind: parsed.data.kind, content: said, at }, state.ended !== null);
			} catch (error) {
				if (!(error instanceof OutOfTurn)) throw error;
				// Another process wrote to this attempt.
				live.forget(attemptId);
				const now = bringUp(attemptId, learnerId);
				return now.outcome === 'live' ? outOfTurn(now, said, seq) : now;
			}
			const attempt = state.ended === null ? one.attempt : { ...one.attempt, ended: at };
			return { outcome: 'done', ...shown(keep({ ...one, attempt, state, path: [...one.path, said] })) };
		},

		/**
		 * Does several actions one after the other, each stored before the next is worked out, and stops at the first that is not done. Sent
		 * again after a second click, or after a crash between two of them, it goes on from where the path stands and does nothing twice.
		 * @param wanted  at least one, unchecked
		 * @param seq     the number of the first
		 */
		actInTurn(attemptId: string, learnerId: string, wanted: readonly [unknown, ...unknown[]], seq: number, now = Date.now()): Acted {
			const one = bringUp(attemptId, learnerId);
			if (one.outcome !== 'live') return one;
			const stored = Number.isInteger(seq) && seq >= 0 ? one.path.slice(seq) : [];
			const isRepeat = stored.length > 0 && stored.length <= wanted.length && stored.every((said, at) => said === saidBy(wanted[at]));
			let at = isRepeat ? stored.length - 1 : 0;
			let acted = this.act(attemptId, learnerId, wanted[at], seq + at, now);
			while (acted.outcome === 'done' && ++at < wanted.length) acted = this.act(attemptId, learnerId, wanted[at], seq + at, now);
			return acted;
		}
	};
}

/** What is answered when the expected number is not the next: nothing is done twice, nothing is lost. */
function outOfTurn(one: Live, said: string, seq: number): Acted {
	// The same action at the same place is one click sent twice.
	if (one.path[seq] === said && one.path.length === seq + 1) return { outcome: 'done', ...shown(one) };
	const says = 'This callout moved on in another tab or by a second click. Here it is as it stands; nothing was done twice.';
	return { outcome: 'conflict', says, ...shown(one) };
}

/** Why a note cannot be taken, in a sentence; null for one that can, and for any other action. */
const unreadable = (wanted: Action): string | null =>
	wanted.kind === 'note' && !isLegibleText(wanted.text) ? 'This note holds what cannot be read. Write it anew.' : null;

/** An action as it would be stored; null for what is none. */
function saidBy(wanted: unknown): string | null {
	const parsed = action.safeParse(wanted);
	return parsed.success ? JSON.stringify(parsed.data) : null;
}

let service: Callouts | undefined;
/** The callouts of this process's database. */
export function callouts(): Callouts {
	service ??= calloutsIn(database(), packs());
	return service;
}

export const noSuchFamily: Callouts['noSuchFamily'] = (...given) => callouts().noSuchFamily(...given);
export const startCallout: Callouts['start'] = (...given) => callouts().start(...given);
export const findCallout: Callouts['find'] = (...given) => callouts().find(...given);
export const actInTurn: Callouts['actInTurn'] = (...given) => callouts().actInTurn(...given);
export const debriefOf: Callouts['debrief'] = (...given) => callouts().debrief(...given);
export const soundBandsOf: Callouts['soundBands'] = (...given) => callouts().soundBands(...given);
export const gapsOfCallout: Callouts['gaps'] = (...given) => callouts().gaps(...given);
export const followedCallout: Callouts['followed'] = (...given) => callouts().followed(...given);
export const packHashOf: Callouts['packHashOf'] = (...given) => callouts().packHashOf(...given);
