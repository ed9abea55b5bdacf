/** What is said of a callout besides the callout itself: its debrief, how it was worked, and what readings are held against on the way. */
import { helpTaken } from '#shared/callout/prediction.ts';
import { gapsOf } from '#shared/marking/gap.ts';
import type { Debrief, Gap } from '#shared/marking/mark-sheet.ts';
import { soundBands, type SoundBand } from '#shared/marking/sound-band.ts';
import { measuresOf, type CalloutMeasures } from '#shared/review/progress/measures.ts';
import { attemptsIn } from '../database/attempts.ts';
import type { Database } from '../database/open.ts';
import { debriefFor } from '../debriefs/debriefs.ts';
import { evidenceFor } from '../evidence/evidence.ts';
import { inAMoment } from '../patience.ts';
import { Recent } from '../recent.ts';
import { sittingHolding } from '../sittings/release.ts';
import { shown, type BroughtUp, type LiveAttempts } from './live.ts';
import { missing, type Debriefed } from './outcomes.ts';

export function explainedIn(db: Database, { bringUp }: LiveAttempts) {
	const attempts = attemptsIn(db);
	/** Being worked out, or ready. */
	const debriefs = new Recent<Promise<Debrief>>(100);
	const failed = new Set<string>();
	/** Of ended callouts, by learner and attempt; null for one that cannot be played again. Some hundreds of bytes each. */
	const measured = new Recent<CalloutMeasures | null>(5000);

	/** The learner's own, else one of the invented learner's, which are for all to see. */
	function forDebrief(attemptId: string, learnerId: string | null): { one: BroughtUp; invented: boolean } {
		const own = learnerId === null ? missing : bringUp(attemptId, learnerId);
		if (own.outcome !== 'missing') return { one: own, invented: false };
		const inventor = attempts.inventedOwner(attemptId);
		return { one: inventor === undefined ? missing : bringUp(attemptId, inventor), invented: true };
	}

	return {
		/**
		 * The explained mark of an ended callout, worked out beside everything else. Waits for the family's evidence table as well, where
		 * that is still being made.
		 * @param learnerId  null for a visitor who is no learner yet
		 * @throws WeighingFailed, or what the making of the table failed with
		 */
		async debrief(attemptId: string, learnerId: string | null): Promise<Debriefed> {
			const { one, invented } = forDebrief(attemptId, learnerId);
			if (one.outcome !== 'live') return one;
			// What the end of its sitting broke off is explained as far as it went.
			if (one.state.ended === null && !sittingHolding(db, { attempt: attemptId })?.sitting.ended) return { outcome: 'running' };
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

		/** How a callout of this learner's was worked; null while it runs, and where it cannot be played again. Played again once. */
		measures(attemptId: string, learnerId: string): CalloutMeasures | null {
			const key = `${learnerId} ${attemptId}`;
			const kept = measured.get(key);
			if (kept !== undefined) return kept;
			const one = bringUp(attemptId, learnerId);
			if (one.outcome === 'missing' || (one.outcome === 'live' && one.state.ended === null)) return null;
			const made = one.outcome === 'live' ? measuresOf(one.callout, one.state) : null;
			measured.set(key, made);
			return made;
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
