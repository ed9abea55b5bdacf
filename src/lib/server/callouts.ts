/** Callouts of learners: the core's pure functions joined to the database. Everything is a function of pack, seed and stored actions. */
import { randomBytes, randomInt } from 'node:crypto';
import { act } from '#shared/callout/act.ts';
import { action, type Action } from '#shared/callout/action.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { replay } from '#shared/callout/replay.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import type { CalloutView } from '#shared/callout/view.ts';
import { viewOf } from '#shared/callout/view-of.ts';
import { debrief } from '#shared/marking/debrief.ts';
import type { Debrief } from '#shared/marking/mark-sheet.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { attemptsIn, OutOfTurn } from './database/attempts.ts';
import { database, type Database } from './database/open.ts';
import type { Attempt } from './database/schema.ts';
import { evidenceFor } from './evidence.ts';
import { packs } from './packs.ts';
import { packFrom, packToKeep } from './kept-packs.ts';
import { Recent } from './recent.ts';

/** A callout as its learner may see it. */
export interface RunningCallout {
	readonly attemptId: string;
	/** The number that the next action must carry. A page that was left behind by another tab carries an older one. */
	readonly seq: number;
	readonly view: CalloutView;
}

export type Started = { readonly outcome: 'started'; readonly attemptId: string } | { readonly outcome: 'invalid'; readonly says: string };

/** `missing` covers what belongs to someone else, so that an id tells nothing. All others show the callout as it now stands. */
export type Acted =
	| ({ readonly outcome: 'done' } & RunningCallout)
	| ({ readonly outcome: 'refused' | 'conflict' | 'invalid'; readonly says: string } & RunningCallout)
	| { readonly outcome: 'missing' };

export type Debriefed =
	| { readonly outcome: 'debriefed'; readonly debrief: Debrief; readonly callout: RunningCallout; readonly invented: boolean }
	| { readonly outcome: 'running' }
	| { readonly outcome: 'missing' };

/** An attempt brought to where its stored actions lead. */
interface Live {
	readonly attempt: Attempt;
	readonly callout: Callout;
	readonly state: CalloutState;
	/** JSON of each stored action. */
	readonly path: readonly string[];
}

export type Callouts = ReturnType<typeof calloutsIn>;

/**
 * @param db     where attempts are kept
 * @param known  the packs of today by family; an attempt made from an earlier one is replayed from the pack kept with it
 */
export function calloutsIn(db: Database, known: ReadonlyMap<string, Pack>) {
	const attempts = attemptsIn(db);
	const live = new Recent<Live>(500);
	const debriefs = new Recent<Debrief>(100);

	function bringUp(attemptId: string, learnerId: string): Live | undefined {
		const kept = live.get(attemptId);
		if (kept) return kept.attempt.learner === learnerId ? kept : undefined;
		const attempt = attempts.find(attemptId);
		if (!attempt || attempt.learner !== learnerId) return undefined;
		const callout = makeCallout(packOf(attempt), attempt.seed, attempt.fault ?? undefined);
		const path = attempts.actions(attemptId).map(({ content }) => content);
		const state = replay(
			callout,
			path.map((content) => action.parse(JSON.parse(content)))
		);
		return keep({ attempt, callout, state, path });
	}

	/** The learner's own, else one of the invented learner's, which are for all to see. */
	function forDebrief(attemptId: string, learnerId: string | null): { one: Live; invented: boolean } | undefined {
		const own = learnerId === null ? undefined : bringUp(attemptId, learnerId);
		if (own) return { one: own, invented: false };
		const inventor = attempts.inventedOwner(attemptId);
		const one = inventor === undefined ? undefined : bringUp(attemptId, inventor);
		return one && { one, invented: true };
	}

	function keep(one: Live): Live {
		live.set(one.attempt.id, one);
		return one;
	}

	function packOf(attempt: Attempt): Pack {
		const today = known.get(attempt.family);
		if (today?.hash === attempt.packHash) return today;
		const content = attempts.packContent(attempt.packHash);
		if (!content) throw new Error(`Attempt ${attempt.id} names pack ${attempt.packHash}, which is not kept.`);
		return packFrom(content);
	}

	function shown({ attempt, callout, state, path }: Live): RunningCallout {
		return { attemptId: attempt.id, seq: path.length, view: viewOf(callout, state) };
	}

	/** What is answered when the expected number is not the next: nothing is done twice, nothing is lost. */
	function outOfTurn(one: Live, said: string, seq: number): Acted {
		// The same action at the same place is one click sent twice.
		if (one.path[seq] === said && one.path.length === seq + 1) return { outcome: 'done', ...shown(one) };
		const says = 'This callout moved on in another tab or by a second click. Here it is as it stands; nothing was done twice.';
		return { outcome: 'conflict', says, ...shown(one) };
	}

	return {
		/**
		 * Starts a callout.
		 * @param choice.seed   whole number from 0 to 2^31 - 1; drawn where left out
		 * @param choice.fault  id of the fault to hide; the seed's own where left out
		 */
		start(learnerId: string, choice: { family: string; seed?: number; fault?: string }): Started {
			const pack = known.get(choice.family);
			if (!pack)
				return { outcome: 'invalid', says: `No appliance family "${choice.family}" here; there is ${[...known.keys()].join(', ')}.` };
			const { seed = randomInt(2 ** 31 - 1), fault } = choice;
			if (!Number.isInteger(seed) || seed < 0 || seed >= 2 ** 31)
				return { outcome: 'invalid', says: 'A seed is a whole number from 0 to 2147483647.' };
			if (fault !== undefined && !pack.faults.some(({ id }) => id === fault)) {
				return { outcome: 'invalid', says: `No fault "${fault}" in the family "${choice.family}".` };
			}
			const attempt: Attempt = {
				id: randomBytes(16).toString('base64url'),
				learner: learnerId,
				family: choice.family,
				packHash: pack.hash,
				seed,
				fault: fault ?? null,
				created: new Date(),
				ended: null
			};
			const callout = makeCallout(pack, seed, fault);
			attempts.keepPack({ hash: pack.hash, family: choice.family, content: packToKeep(pack), created: attempt.created });
			attempts.add(attempt);
			keep({ attempt, callout, state: replay(callout, []), path: [] });
			return { outcome: 'started', attemptId: attempt.id };
		},

		/** @returns the callout as it stands, or null where this learner has none by that id */
		load(attemptId: string, learnerId: string): RunningCallout | null {
			const one = bringUp(attemptId, learnerId);
			return one ? shown(one) : null;
		},

		/**
		 * Does one action: worked out, stored, and only then answered.
		 * @param wanted  what came from outside, unchecked
		 * @param seq     the number that the page was given with the callout it shows
		 */
		act(attemptId: string, learnerId: string, wanted: unknown, seq: number): Acted {
			const one = bringUp(attemptId, learnerId);
			if (!one) return { outcome: 'missing' };
			const parsed = action.safeParse(wanted);
			if (!parsed.success) return { outcome: 'invalid', says: 'That is nothing that can be done in a callout.', ...shown(one) };
			const said = JSON.stringify(parsed.data satisfies Action);
			if (seq !== one.path.length) return outOfTurn(one, said, seq);
			const state = act(one.callout, one.state, parsed.data);
			if ('refused' in state) return { outcome: 'refused', says: state.refused, ...shown(one) };
			const at = new Date();
			try {
				attempts.append({ attempt: attemptId, seq, kind: parsed.data.kind, content: said, at }, state.ended !== null);
			} catch (error) {
				if (!(error instanceof OutOfTurn)) throw error;
				// Another process wrote to this attempt: what is in memory is behind.
				live.delete(attemptId);
				return outOfTurn(bringUp(attemptId, learnerId)!, said, seq);
			}
			const attempt = state.ended === null ? one.attempt : { ...one.attempt, ended: at };
			return { outcome: 'done', ...shown(keep({ ...one, attempt, state, path: [...one.path, said] })) };
		},

		/**
		 * The explained mark of an ended callout. Waits for the family's evidence table where that is still being made.
		 * @param learnerId  null for a visitor who is no learner yet
		 */
		async debrief(attemptId: string, learnerId: string | null): Promise<Debriefed> {
			const found = forDebrief(attemptId, learnerId);
			if (!found) return { outcome: 'missing' };
			const { one, invented } = found;
			if (one.state.ended === null) return { outcome: 'running' };
			let made = debriefs.get(attemptId);
			if (!made) {
				made = debrief(one.callout, one.state, await evidenceFor(one.callout.pack));
				debriefs.set(attemptId, made);
			}
			return { outcome: 'debriefed', debrief: made, callout: shown(one), invented };
		},

		/**
		 * The hash of the pack an attempt was made from, by which the progress of its evidence table is known.
		 * @param learnerId  as for `debrief`
		 */
		packHashOf(attemptId: string, learnerId: string | null): string | null {
			return forDebrief(attemptId, learnerId)?.one.attempt.packHash ?? null;
		}
	};
}

let service: Callouts | undefined;
/** The callouts of this process's database. */
export function callouts(): Callouts {
	service ??= calloutsIn(database(), packs());
	return service;
}

export const startCallout: Callouts['start'] = (...given) => callouts().start(...given);
export const loadCallout: Callouts['load'] = (...given) => callouts().load(...given);
export const actOn: Callouts['act'] = (...given) => callouts().act(...given);
export const debriefOf: Callouts['debrief'] = (...given) => callouts().debrief(...given);
export const packHashOf: Callouts['packHashOf'] = (...given) => callouts().packHashOf(...given);
