/** What a path has led to so far. Made only by `replay` and `act`; never stored, always computed again. */
import type { Demand } from '#shared/appliance/model.ts';
import type { SiteState } from '#shared/scenario/schema.ts';
import type { Action, Sureness } from './action.ts';

/** One signal followed over the run while the check was taken. */
export interface Line {
	readonly signal: string;
	readonly says: string;
	readonly unit: string;
	/** One for each of the trace's seconds. */
	readonly values: readonly number[];
}

/** A check over time: what could be followed, rounded to what can be read. */
export interface RunTrace {
	readonly seconds: readonly number[];
	readonly lines: readonly Line[];
}

/** What the learner chose of an instrument: its range, and the two test points that its leads were put on. */
export type Chosen = Pick<Extract<Action, { kind: 'check' }>, 'range' | 'terminals'>;

/** How the instrument was set by hand, and what it in truth read then; never told before the debrief. */
export interface Setting extends Chosen {
	/** The check whose quantity was read; null where the reading says nothing of the appliance. */
	readonly stands: string | null;
	/** As good as that check taken as it is meant: neither over the end of too low a range nor too coarse. */
	readonly whole: boolean;
}

/** What a check returned, with the conditions it was taken under. */
export interface Reading {
	/** Place of the event in the path, from 0. */
	readonly event: number;
	readonly check: string;
	readonly demand: Demand;
	/** As shown by the instrument: already disturbed and rounded. For words, the number of the band. Infinite when over range. */
	readonly value: number;
	/** What the learner sees: `46.2`, `over range`, `cold`. */
	readonly text: string;
	readonly unit: string;
	/** Minutes on the clock when it was taken. */
	readonly minute: number;
	/** Remedies already done when it was taken, so that belief knows which machine it saw. */
	readonly after: readonly string[];
	/** Where the instrument was set by hand. */
	readonly setting?: Setting;
	/** For a check over time. */
	readonly trace?: RunTrace;
}

/** One action and what came of it. */
export interface CalloutEvent {
	readonly index: number;
	readonly action: Action;
	/** Clock before the action. */
	readonly minute: number;
	readonly minutes: number;
	/** Parts and materials bought by it, in the rules' currency. */
	readonly spent: number;
	readonly readings: readonly Reading[];
	/** Ids of safety rules breached. An action that breaches is stopped: it brings no reading and no work. */
	readonly breaches: readonly string[];
	/** What the learner is told, in plain sentences. */
	readonly says: readonly string[];
}

export interface RemedyDone {
	readonly event: number;
	readonly remedy: string;
	readonly sure: Sureness;
	/** Whether it cured the fault; unknown to the learner until shown by readings. */
	readonly cured: boolean;
}

/** What a check would read if each of a few faults were the one, said before it was taken. */
export interface Prediction {
	/** Place of the event in the path, from 0. */
	readonly event: number;
	readonly check: string;
	/** The demand that it was said for: the one then set. */
	readonly demand: Demand;
	readonly expects: Extract<Action, { kind: 'predict' }>['expects'];
	/** The event that brought the reading; null where none has. */
	readonly observed: number | null;
	/** The learner went on to something else, and the reading will not come. */
	readonly lapsed: boolean;
}

export interface CalloutState {
	readonly demand: Demand;
	readonly site: ReadonlySet<SiteState>;
	readonly minutes: number;
	readonly spent: number;
	/** Tools brought from the van so far. */
	readonly fetched: ReadonlySet<string>;
	readonly events: readonly CalloutEvent[];
	readonly readings: readonly Reading[];
	readonly remedies: readonly RemedyDone[];
	readonly predictions: readonly Prediction[];
	readonly cured: boolean;
	/** Index of the last `prove` after the last remedy, or null. */
	readonly provedAt: number | null;
	readonly told: readonly string[];
	/** `left` by the learner, `stopped` by a dangerous breach. */
	readonly ended: null | 'left' | 'stopped';
}

/** An action that cannot be done now; nothing is stored and no time passes. */
export interface Refusal {
	readonly refused: string;
}
