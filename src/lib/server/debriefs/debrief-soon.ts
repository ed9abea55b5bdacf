/** A debrief where it is ready, and how far it has come where it is not. */
import { debriefOf, packHashOf } from '../callouts/callouts.ts';
import type { Debriefed } from '../callouts/outcomes.ts';
import { evidenceProgress, type EvidenceProgress } from '../evidence/evidence.ts';
import { inAMoment } from '../patience.ts';

export type Soon = Debriefed | { readonly outcome: 'making'; readonly table: EvidenceProgress | null };

/**
 * Asks for the debrief, which sets the making of it and of its evidence table going, and waits a moment for it. `table` is null where
 * that is ready, and the path is being gone through.
 * @throws what the making failed with
 */
export async function debriefSoon(attemptId: string, learnerId: string | null): Promise<Soon> {
	const made = await inAMoment(debriefOf(attemptId, learnerId));
	if (made) return made;
	const hash = packHashOf(attemptId, learnerId);
	return { outcome: 'making', table: hash === null ? null : evidenceProgress(hash) };
}
