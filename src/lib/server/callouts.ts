/** Callouts of learners: the core's pure functions joined to the database. Everything is a function of pack, seed and stored actions. */
import { randomBytes, randomInt } from 'node:crypto';
import { z } from 'zod';
import { act } from '#shared/callout/act.ts';
import { action, type Action } from '#shared/callout/action.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { makeCallout, NoComplaint } from '#shared/callout/make.ts';
import { helpTaken } from '#shared/callout/prediction.ts';
import { RefusedAction, replay } from '#shared/callout/replay.ts';
import { UnknownFault } from '#shared/callout/sample-machine.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import type { CalloutView } from '#shared/callout/view.ts';
import { viewOf } from '#shared/callout/view-of.ts';
import { gapsOf } from '#shared/marking/gap.ts';
import type { Debrief, Gap } from '#shared/marking/mark-sheet.ts';
import { soundBands, type SoundBand } from '#shared/marking/sound-band.ts';
import { measuresOf, type CalloutMeasures } from '#shared/review/measures.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { attemptsIn, OutOfTurn } from './database/attempts.ts';
import { database, type Database } from './database/open.ts';
import type { Attempt } from './database/schema.ts';
import { debriefFor } from './debriefs.ts';
import { evidenceFor } from './evidence.ts';
import { packs } from './packs.ts';
import { earlierPacksIn } from './earlier-packs.ts';
import { packToKeep } from './kept-packs.ts';
import { inAMoment } from './patience.ts';
import { Recent } from './recent.ts';

/** A callout as its learner may see it. */
export interface RunningCallout {
	readonly attemptId: string;
	/** The number that the next action must carry. A page that was left behind by another tab carries an older one. */
	readonly seq: number;
	readonly view: CalloutView;
}

/** An attempt of which this version can no longer work out the figures. */
export interface Unplayable {
	readonly outcome: 'unplayable';
	readonly says: string;
}

/** A callout as it stands, where it does. */
export type Found = ({ readonly outcome: 'standing' } & RunningCallout) | Unplayable | { readonly outcome: 'missing' };

export type Started = { readonly outcome: 'started'; readonly attemptId: string } | { readonly outcome: 'invalid'; readonly says: string };

/** `missing` covers what belongs to someone else, so that an id tells nothing. All others show the callout as it now stands. */
export type Acted =
	| ({ readonly outcome: 'done' } & RunningCallout)
	| ({ readonly outcome: 'refused' | 'conflict' | 'invalid'; readonly says: string } & RunningCallout)
	| Unplayable
	| { readonly outcome: 'missing' };

export type Debriefed =
	| { readonly outcome: 'debriefed'; readonly debrief: Debrief; readonly callout: RunningCallout; readonly invented: boolean }
	| { readonly outcome: 'running' }
	| Unplayable
	| { readonly outcome: 'missing' };

/** An attempt brought to where its stored actions lead. */
interface Live {
	readonly outcome: 'live';
	readonly attempt: Attempt;
	readonly callout: Callout;
	readonly state: CalloutState;
	/** JSON of each stored action. */
	readonly path: readonly string[];
}

type BroughtUp = Live | Unplayable | { readonly outcome: 'missing' };

const missing = { outcome: 'missing' } as const;
const unplayable: Unplayable = {
	outcome: 'unplayable',
	says: 'This callout was begun with an earlier version of the appliance, and this version would give other figures. It cannot be played on.'
};

export type Callouts = ReturnType<typeof calloutsIn>;

/**
 * @param db     where attempts are kept
 * @param known  the packs of today by family; an attempt made from an earlier one is replayed from the pack kept with it
 */
export function calloutsIn(db: Database, known: ReadonlyMap<string, Pack>) {
	const attempts = attemptsIn(db);
	const packOf = earlierPacksIn(db, known);
	const live = new Recent<Live>(500);
	/** Being worked out, or ready. */
	const debriefs = new Recent<Promise<Debrief>>(100);
	const failed = new Set<string>();

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

	/** The learner's own, else one of the invented learner's, which are for all to see. */
	function forDebrief(attemptId: string, learnerId: string | null): { one: BroughtUp; invented: boolean } {
		const own = learnerId === null ? missing : bringUp(attemptId, learnerId);
		if (own.outcome !== 'missing') return { one: own, invented: false };
		const inventor = attempts.inventedOwner(attemptId);
		return { one: inventor === undefined ? missing : bringUp(attemptId, inventor), invented: true };
	}

	function keep(one: Live): Live {
		live.set(one.attempt.id, one);
		return one;
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
		 * @param now  [ms since 1970]
		 */
		start(learnerId: string, choice: { family: string; seed?: number; fault?: string }, now = Date.now()): Started {
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
				created: new Date(now),
				ended: null,
				reviewed: null
			};
			const callout = makeCallout(pack, seed, fault);
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
			const state = act(one.callout, one.state, parsed.data);
			if ('refused' in state) return { outcome: 'refused', says: state.refused, ...shown(one) };
			const at = new Date(now);
			try {
				attempts.append({ attempt: attemptId, seq, kind: parsed.data.kind, content: said, at }, state.ended !== null);
			} catch (error) {
				if (!(error instanceof OutOfTurn)) throw error;
				// Another process wrote to this attempt: what is in memory is behind.
				live.delete(attemptId);
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
		},

		/**
		 * The explained mark of an ended callout, worked out beside everything else. Waits for the family's evidence table as well, where
		 * that is still being made.
		 * @param learnerId  null for a visitor who is no learner yet
		 * @throws DebriefFailed, or what the making of the table failed with
		 */
		async debrief(attemptId: string, learnerId: string | null): Promise<Debriefed> {
			const { one, invented } = forDebrief(attemptId, learnerId);
			if (one.outcome !== 'live') return one;
			if (one.state.ended === null) return { outcome: 'running' };
			let made = debriefs.get(attemptId);
			if (!made) {
				const { callout, attempt, state } = one;
				made = debriefFor(callout.pack, { ...attempt, actions: state.events.map(({ action }) => action) });
				debriefs.set(attemptId, made);
				made.catch(() => failed.add(attemptId));
			}
			// Whoever asks first after a failure hears of it, also when they were not waiting while it happened; the next asking tries afresh.
			if (failed.delete(attemptId)) debriefs.delete(attemptId);
			return { outcome: 'debriefed', debrief: await made, callout: shown(one), invented };
		},

		/** How a callout of this learner's was worked; null while it runs, and where it cannot be played again. */
		measures(attemptId: string, learnerId: string): CalloutMeasures | null {
			const one = bringUp(attemptId, learnerId);
			return one.outcome === 'live' && one.state.ended !== null ? measuresOf(one.callout, one.state, null) : null;
		},

		/**
		 * What a sound appliance reads, for readings taken and then judged; null where the evidence table is still being made.
		 * @throws what the making of the table failed with
		 */
		async soundBands(attemptId: string, learnerId: string): Promise<readonly SoundBand[] | null> {
			const one = bringUp(attemptId, learnerId);
			if (one.outcome !== 'live' || !one.state.events.some(({ action: { kind } }) => kind === 'judge')) return [];
			const { callout, state } = one;
			const table = await inAMoment(evidenceFor(callout.pack));
			return table && soundBands(callout.pack, state, table);
		},

		/**
		 * What was predicted of checks against what they read; null where the evidence table is still being made.
		 * @throws what the making of the table failed with
		 */
		async gaps(attemptId: string, learnerId: string): Promise<readonly Gap[] | null> {
			const one = bringUp(attemptId, learnerId);
			if (one.outcome !== 'live' || !helpTaken(one.state)) return [];
			const { callout, state } = one;
			const table = await inAMoment(evidenceFor(callout.pack));
			return table && gapsOf(callout.pack, state, table);
		},

		/**
		 * The hash of the pack an attempt was made from, by which the progress of its evidence table is known.
		 * @param learnerId  as for `debrief`
		 */
		packHashOf(attemptId: string, learnerId: string | null): string | null {
			const { one } = forDebrief(attemptId, learnerId);
			return one.outcome === 'live' ? one.attempt.packHash : null;
		}
	};
}

/** An action as it would be stored; null for what is none. */
function saidBy(wanted: unknown): string | null {
	const parsed = action.safeParse(wanted);
	return parsed.success ? JSON.stringify(parsed.data) : null;
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

let service: Callouts | undefined;
/** The callouts of this process's database. */
export function callouts(): Callouts {
	service ??= calloutsIn(database(), packs());
	return service;
}

export const startCallout: Callouts['start'] = (...given) => callouts().start(...given);
export const findCallout: Callouts['find'] = (...given) => callouts().find(...given);
export const actOn: Callouts['act'] = (...given) => callouts().act(...given);
export const actInTurn: Callouts['actInTurn'] = (...given) => callouts().actInTurn(...given);
export const debriefOf: Callouts['debrief'] = (...given) => callouts().debrief(...given);
export const soundBandsOf: Callouts['soundBands'] = (...given) => callouts().soundBands(...given);
export const gapsOfCallout: Callouts['gaps'] = (...given) => callouts().gaps(...given);
export const packHashOf: Callouts['packHashOf'] = (...given) => callouts().packHashOf(...given);
