/**
 * What a learner may see of a callout while it runs. This is the only shape of a running callout that leaves the server: it carries no
 * fault, no seed, no severity and no reading that was not taken.
 */
import type { Demand } from '#shared/appliance/model.ts';
import type { Remedy } from '#shared/scenario/pack.ts';
import type { Advice, Check, Drawing, SafetyRule, SiteState } from '#shared/scenario/schema.ts';
import type { Action } from './action.ts';
import type { CalloutState, Reading } from './state.ts';

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
	/** Minutes for the walk to the van, 0 when the instrument is at hand. */
	readonly fetchMinutes: number;
	readonly under: readonly Demand[];
	readonly taken: number;
}

export interface RemedyOffer extends Offer, Pick<Remedy, 'kind' | 'place' | 'price'> {
	readonly done: boolean;
}

export interface StepOffer extends Offer {
	readonly how: string;
	readonly sets: readonly SiteState[];
	/** Already so: doing it again would change nothing. */
	readonly stands: boolean;
}

/** A reading with the names that a page needs. */
export interface ReadingLine extends Reading {
	readonly name: string;
	readonly place: string;
	readonly area: string;
	readonly noticed: boolean;
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
	readonly remedies: readonly RemedyOffer[];
	readonly faults: readonly { readonly id: string; readonly says: string; readonly area: string }[];
	/** The faults that the learner last said are still in; null before a first judgement. */
	readonly judged: readonly string[] | null;
	readonly advice: readonly Advice[];
	readonly readings: readonly ReadingLine[];
	readonly events: readonly EventLine[];
	readonly minutes: number;
	readonly spent: number;
	readonly proveMinutes: number;
	readonly rules: { readonly name: string; readonly currency: string; readonly labourPerHour: number };
	readonly ended: CalloutState['ended'];
}
