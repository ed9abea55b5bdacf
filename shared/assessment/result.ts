/** What an item of a sitting came to. Plain data, stored when the sitting closes, and worked out again from pack, seed and actions to compare. */
import type { Criterion, MarkSheet } from '#shared/marking/mark-sheet.ts';

/** Marks that an item is out of. That a drill weighs a tenth of a callout is a judgement of ours: it takes about a tenth of the time. */
export const outOf = { callout: 100, drill: 10 } as const;

export interface CalloutResult {
	readonly kind: 'callout';
	readonly sheet: MarkSheet;
	readonly cured: boolean;
	/** On the callout's clock, and what was spent in the rules' currency. */
	readonly minutes: number;
	readonly spent: number;
	/** Whether the learner left the appliance, or was stopped; else the time ran out on it. */
	readonly finished: boolean;
}

export interface DrillResult {
	readonly kind: 'drill';
	readonly right: boolean;
	readonly seconds: number;
	/** Of the answer given, in words. */
	readonly said: readonly string[];
	/** The right answer, in words. */
	readonly answer: readonly string[];
}

/** Never begun, or a drill that was not answered. */
export interface Untried {
	readonly kind: 'untried';
	readonly of: 'callout' | 'drill';
}

export type ItemResult = CalloutResult | DrillResult | Untried;

/** Marks as they stand after moderation. */
export interface ItemMarks {
	readonly slot: number;
	readonly got: number;
	readonly outOf: number;
	/** For a callout that was begun. */
	readonly byCriterion: Readonly<Record<Criterion, { readonly got: number; readonly outOf: number }>> | null;
}
