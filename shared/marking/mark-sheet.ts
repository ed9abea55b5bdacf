/** What marking and the debrief return. Plain data, so that it can be shown, stored, exported and computed again. */
import type { Demand } from '#shared/appliance/model.ts';
import type { Reading, RunTrace } from '#shared/callout/state.ts';
import type { Area } from '#shared/scenario/areas.ts';
import type { Recall } from './recall.ts';

export const criteria = ['safety', 'parts', 'economy', 'evidence', 'finish'] as const;
export type Criterion = (typeof criteria)[number];

/** One line of the bill: what was gained or lost, at which event, and why. */
export interface MarkLine {
	readonly criterion: Criterion;
	/** Index of the event it rests on; null where it rests on something left undone. */
	readonly event: number | null;
	/** Marks lost, >= 0; 0 for a line that explains marks kept. */
	readonly lost: number;
	readonly says: string;
}

export interface MarkSheet {
	readonly packHash: string;
	readonly seed: number;
	readonly total: number;
	readonly outOf: number;
	readonly byCriterion: Readonly<Record<Criterion, { readonly got: number; readonly outOf: number }>>;
	readonly lines: readonly MarkLine[];
	/** A dangerous breach fails the callout whatever the total. */
	readonly failed: boolean;
	/** How the skill was shown. */
	readonly recall: Recall;
	/** Areas whose evidence was misread: a fault of theirs judged out though likely, or kept in though ruled out. */
	readonly misread: readonly Area[];
}

/** One step of the learner's path or of the sound one, with what was believed after it. */
export interface PathStep {
	readonly event: number | null;
	readonly says: string;
	readonly minute: number;
	readonly minutes: number;
	readonly spent: number;
	/** Expected cost of the step above the best one at that belief, in the rules' currency; null where it is not judged. */
	readonly regret: number | null;
	/** What would have been better; null where it was the best itself, or was stopped. */
	readonly best: string | null;
	/** Whether it was stopped before it was done, because something was not made safe. */
	readonly stopped: boolean;
	/** Suspicion by fault id after the step, for faults that ever passed 2 %. */
	readonly suspicion: Readonly<Record<string, number>>;
	readonly entropyBits: number;
}

/** Why a reading took its value and what it ruled in or out. */
export interface ReadingReason {
	readonly event: number;
	readonly check: string;
	readonly demand: Demand;
	readonly text: string;
	readonly unit: string;
	readonly why: string;
	/** What the same check reads on this machine without its fault, in words. */
	readonly sound: string;
	/** Whether the two differ by more than looking again would. */
	readonly differs: boolean;
	/** Whether it shows only what the customer complained of. */
	readonly confirms: boolean;
	/** Bits gained by it, and what it did to suspicion, in words. */
	readonly bits: number;
	readonly ruledOut: readonly string[];
	readonly ruledIn: readonly string[];
	/** For a check over time: the run that was followed, and the same of this machine without its fault. Alike once it is cured. */
	readonly trace?: { readonly taken: RunTrace; readonly sound: RunTrace };
}

/** Whether a prediction is what machines with the fault read: most of them, some, or few. */
export type Fit = 'fits' | 'partly' | 'misses';

export interface FaultGap {
	readonly fault: string;
	readonly says: string;
	/** As it was predicted, in words. */
	readonly predicted: string;
	/** What machines of the family with this fault read. */
	readonly truly: string;
	readonly fit: Fit;
}

export interface Gap {
	/** The event of the prediction, and the one that brought the reading. */
	readonly event: number;
	readonly observed: number;
	readonly check: string;
	/** What was read. */
	readonly reading: Pick<Reading, 'text' | 'unit'>;
	/** What nine sound appliances in ten read; null for what the customer was asked, which is of the household. */
	readonly sound: string | null;
	/** Where a number stands against that; null for words, which say it themselves. */
	readonly stands: string | null;
	readonly faults: readonly FaultGap[];
	/** What the reading says of the faults named, in sentences; empty where it cannot be compared. */
	readonly says: readonly string[];
}

export interface Debrief {
	readonly fault: { readonly id: string; readonly says: string; readonly because: string; readonly area: Area };
	readonly sheet: MarkSheet;
	/** What was believed after the complaint, before anything was done. */
	readonly prior: Pick<PathStep, 'suspicion' | 'entropyBits'>;
	readonly path: readonly PathStep[];
	/** From which event on a fit was justified, or null if never. */
	readonly justifiedFrom: number | null;
	readonly soundPath: readonly PathStep[];
	readonly cost: { readonly minutes: number; readonly spent: number; readonly soundMinutes: number; readonly soundSpent: number };
	/** What was predicted of checks, against what they read. */
	readonly gaps: readonly Gap[];
	readonly reasons: readonly ReadingReason[];
	/** A check that would have told sooner, if there was one. */
	readonly sooner: string | null;
	readonly takeAway: string;
}
