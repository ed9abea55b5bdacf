/**
 * What a learner may see of a callout while it runs. This is the only shape of a running callout that leaves the server: it carries no
 * fault, no seed, no severity and no reading that was not taken.
 */
import type { Demand } from '#shared/appliance/model.ts';
import type { Remedy } from '#shared/scenario/pack.ts';
import type { Advice, Check, Drawing, InstrumentFace, SafetyRule, SiteState, Terminals } from '#shared/scenario/schema.ts';
import type { RotaryRange } from '#shared/scenario/rotary.ts';
import type { Action } from './action.ts';
import type { CalloutState, Prediction, Reading } from './state.ts';

/** Something that can be done, and what stands in the way of it now, in words; empty when nothing does. */
interface Offer {
	readonly id: string;
	readonly name: string;
	readonly minutes: number;
	readonly unmet: readonly string[];
}

export interface CheckOffer extends Offer, Pick<Check, 'how' | 'way' | 'place' | 'live' | 'caution' | 'misleads'> {
	readonly area: string;
	readonly instrument: string | null;
	/** The tool that the instrument is a setting of, among the view's tools; null where it is none of them. */
	readonly tool: string | null;
	/** Where the leads can be put; null where there is no choice. */
	readonly terminals: Pick<Terminals, 'points' | 'between'> | null;
	/** Minutes for the walk to the van, 0 when the instrument is at hand. */
	readonly fetchMinutes: number;
	readonly under: readonly Demand[];
	readonly taken: number;
	/** Read already under this demand, on the appliance as it now is: nothing is left to predict. */
	readonly known: boolean;
	/** What it can be found to be, where that is said in words; null where it is a number. */
	readonly words: readonly string[] | null;
}

/** A tool with a face, and what it can be set to by hand. */
export interface ToolOffer {
	readonly id: string;
	readonly face: InstrumentFace;
	readonly ranges: readonly Pick<RotaryRange, 'id' | 'name' | 'measures' | 'unit' | 'over' | 'resolution'>[];
}

export interface RemedyOffer extends Offer, Pick<Remedy, 'kind' | 'place' | 'price' | 'caution'> {
	readonly done: boolean;
}

export interface StepOffer extends Offer {
	readonly how: string;
	readonly sets: readonly SiteState[];
	/** Already so: doing it again would change nothing. */
	readonly stands: boolean;
}

/** A reading with the names that a page needs. */
export interface ReadingLine extends Omit<Reading, 'setting'> {
	/** How the instrument was set by hand, in words; null where it set itself. What it in truth read is not told. */
	readonly setting: string | null;
	readonly name: string;
	readonly place: string;
	readonly area: string;
	readonly noticed: boolean;
}

/** A prediction with the names that a page needs. */
export interface PredictionLine extends Omit<Prediction, 'expects'> {
	readonly suspects: readonly { readonly id: string; readonly says: string; /** What it would read, in words. */ readonly would: string }[];
}

export interface EventLine {
	readonly index: number;
	readonly kind: Action['kind'];
	readonly minute: number;
	readonly minutes: number;
	readonly spent: number;
	/** What was done, in words. */
	readonly did: string;
	readonly says: readonly string[];
	readonly breaches: readonly SafetyRule[];
}

export interface CalloutView {
	readonly family: { readonly id: string; readonly name: string; readonly short: string; readonly says: string };
	readonly household: string;
	readonly complaint: string;
	readonly drawing: Drawing;
	readonly demands: readonly { readonly id: Demand; readonly name: string; readonly short: string; readonly minutes: number }[];
	readonly demand: Demand;
	readonly site: readonly SiteState[];
	readonly steps: readonly StepOffer[];
	readonly checks: readonly CheckOffer[];
	readonly tools: readonly ToolOffer[];
	readonly remedies: readonly RemedyOffer[];
	readonly faults: readonly { readonly id: string; readonly says: string; readonly area: string }[];
	/** The faults that the learner last said are still in; null before a first judgement. */
	readonly judged: readonly string[] | null;
	/** What the learner wrote on the job sheet, in the order it was written. */
	readonly notes: readonly { readonly event: number; readonly minute: number; readonly text: string }[];
	/** What the learner said that checks would read, in the order it was said. */
	readonly predictions: readonly PredictionLine[];
	readonly advice: readonly Advice[];
	readonly readings: readonly ReadingLine[];
	readonly events: readonly EventLine[];
	readonly minutes: number;
	readonly spent: number;
	readonly proveMinutes: number;
	/** Minutes for the walk to the van that proving would take now. */
	readonly proveFetchMinutes: number;
	readonly leaveMinutes: number;
	readonly rules: { readonly name: string; readonly currency: string; readonly labourPerHour: number };
	readonly ended: CalloutState['ended'];
}
