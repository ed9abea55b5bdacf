/** How hard a callout is thought to be before anybody has sat it. */
import { start } from '#shared/callout/act.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { beliefAfter } from '#shared/diagnosis/belief.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { entropyBits } from '#shared/diagnosis/expected-cost.ts';
import { costOf } from '#shared/diagnosis/plan.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import type { Difficulty } from './variant.ts';

/**
 * What the sound path takes, and how much was open before its first reading.
 *
 * Limit: it tells what the callout asks of whoever makes no mistake. How easily it misleads those who do is not in it, and only the
 * statistics of a paper that was sat will tell.
 * @param table of the callout's own pack
 */
export function difficultyOf(callout: Callout, table: EvidenceTable): Difficulty {
	const { state } = soundPath(callout, table);
	const { minutes, spent } = state;
	return {
		minutes,
		spent,
		cost: costOf(callout.pack, { minutes, spent }),
		bits: entropyBits(beliefAfter(callout, start(), table, 0).faults),
		checks: state.events.filter(({ action }) => action.kind === 'check').length
	};
}
