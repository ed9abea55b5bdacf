/** A drawn paper: what is to be played, slot by slot, and how hard it is thought to be. */
import type { Area } from '#shared/scenario/areas.ts';
import type { DrillKind } from '#shared/scenario/curriculum.ts';

/** What a callout asks of a sound engineer, who knows what can be known and no more: predicted, before anybody has sat it. */
export interface Difficulty {
	/** On the callout's clock, along the sound path. */
	readonly minutes: number;
	/** Parts and materials along it, in the rules' currency. */
	readonly spent: number;
	/** Both in the rules' currency, minutes at the labour rate. */
	readonly cost: number;
	/** Entropy over the faults when nothing but the complaint is known [bits]. */
	readonly bits: number;
	/** Checks taken along the sound path. */
	readonly checks: number;
}

export interface CalloutItem {
	readonly kind: 'callout';
	readonly family: string;
	readonly area: Area;
	/** Id of the hidden fault. */
	readonly fault: string;
	/** Id of the complaint that the customer makes of it. */
	readonly complaint: string;
	readonly seed: number;
	readonly packHash: string;
	readonly difficulty: Difficulty;
}

export interface DrillItem {
	readonly kind: 'drill';
	readonly drill: DrillKind;
	/** The same in every variant, with other figures. */
	readonly generator: string;
	/** Null for one that concerns no family. */
	readonly family: string | null;
	readonly seed: number;
	readonly packHash: string | null;
}

export type VariantItem = CalloutItem | DrillItem;

/** Items by slot. */
export interface Variant {
	/** From 1. */
	readonly number: number;
	readonly items: readonly VariantItem[];
}
