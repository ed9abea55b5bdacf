/** A debrief where it is ready, and how far it has come where it is not, so that a page need not wait for an evidence table. */
import { debriefOf, packHashOf, type Debriefed } from './callouts.ts';
import { evidenceProgress, type EvidenceProgress } from './evidence.ts';

const patienceMs = 400;

export type Soon = Debriefed | ({ readonly outcome: 'making' } & EvidenceProgress);

/** Asks for the debrief, which sets the making of its table going, and waits a moment for it. @throws what the making failed with */
export async function debriefSoon(attemptId: string, learnerId: string | null): Promise<Soon> {
	const asked = debriefOf(attemptId, learnerId);
	let timer: NodeJS.Timeout | undefined;
	const later = new Promise<null>((resolve) => (timer = setTimeout(() => resolve(null), patienceMs)));
	try {
		const made = await Promise.race([asked, later]);
		if (made) return made;
	} finally {
		clearTimeout(timer);
	}
	// It goes on without us; whoever asks next hears of a failure, so nobody need hear of it here.
	asked.catch(() => undefined);
	const hash = packHashOf(attemptId, learnerId);
	return { outcome: 'making', ...((hash && evidenceProgress(hash)) || { done: 0, of: 1 }) };
}
