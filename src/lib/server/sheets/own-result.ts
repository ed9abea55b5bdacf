/** What a learner is told of their own sitting, once it may be told. */
import type { Outcome } from '#shared/assessment/pass-rule.ts';
import type { ItemMarks } from '#shared/assessment/result.ts';
import type { Database } from '../database/open.ts';
import { isReleased } from '../sittings/release.ts';
import { sheetOf } from './sheet.ts';

export interface OwnItem {
	/** After moderation. */
	readonly marks: Pick<ItemMarks, 'got' | 'outOf'>;
	/** Why moderation changed a mark of it, the latest last; empty where none was changed. */
	readonly reasons: readonly string[];
}

export interface OwnResult {
	readonly outcome: Outcome;
	/** By slot. */
	readonly items: readonly OwnItem[];
	/** Marks that are not locked may still change. */
	readonly isLocked: boolean;
}

/**
 * @param now [ms since 1970]
 * @returns null before it may be told, and while the sitting is not marked
 */
export function ownResult(db: Database, sittingId: string, now: number): OwnResult | null {
	const sheet = sheetOf(db, sittingId);
	if (!sheet || !isReleased(sheet.paper, sheet.sitting, now)) return null;
	const items = sheet.marks.map(({ slot, got, outOf }) => ({
		marks: { got, outOf },
		reasons: sheet.changes.filter((change) => change.slot === slot).map(({ reason }) => reason)
	}));
	return { outcome: sheet.outcome, items, isLocked: sheet.state === 'locked' };
}
