/** What a sitting forbids at a callout of it, whichever page it is sent from. */
import type { Action } from '#shared/callout/action.ts';
import type { Database } from '../database/open.ts';
import { isOver } from './allowed.ts';
import { sittingHolding } from './release.ts';

/**
 * Why an action cannot be done at an attempt of a sitting, in a sentence; null where it can, and for one played for practice.
 * @param now [ms since 1970]
 */
export function notInSittings(db: Database, attempt: string, { kind }: Pick<Action, 'kind'>, now: number): string | null {
	const holding = sittingHolding(db, { attempt });
	if (!holding) return null;
	if (isOver(holding.sitting, now)) return 'The time of this paper is over. Nothing of this was stored.';
	return kind === 'predict' && holding.paper.mode === 'formal' ? 'A formal paper has no coaching. Take the check as it is.' : null;
}
