/** What differs between an appliance family and those that somebody knows. */
import type { Demand } from '#shared/appliance/model.ts';
import type { Check } from '#shared/scenario/schema.ts';

export const differenceKinds = ['reading', 'step', 'test-point', 'place', 'indication', 'check', 'tool', 'part'] as const;
export type DifferenceKind = (typeof differenceKinds)[number];

export interface Difference {
	readonly kind: DifferenceKind;
	readonly id: string;
	/** `both`: had by both and otherwise in each. `here`: only in the family met. `known`: only in a known one. */
	readonly side: 'both' | 'here' | 'known';
	readonly name: string;
	/** One plain sentence or two, all of it from data. */
	readonly says: string;
	/** How much it would mislead somebody who knows only the others, 0 to 1. */
	readonly misleads: number;
	/** What to beware of where it is done, for checks that have such. */
	readonly caution?: string;
	/** It is done on live parts. */
	readonly isLive?: true;
}

/** What whoever takes the check must be told, as parts of a difference. */
export function warningsOf({ caution, live }: Check): Pick<Difference, 'caution' | 'isLive'> {
	return { ...(caution !== undefined && { caution }), ...(live && { isLive: true as const }) };
}

/** A check that both have and that reads otherwise on a sound appliance under the same demand. */
export interface ReadingDifference extends Difference {
	readonly kind: 'reading';
	readonly side: 'both';
	readonly check: string;
	/** Those under which it reads so. */
	readonly demands: readonly Demand[];
	/** What nine sound ones in ten read: `silent`, `53.2 to 55.7 degC`. */
	readonly here: string;
	readonly there: readonly KnownReading[];
}

export interface KnownReading {
	/** Short name of the known family. */
	readonly family: string;
	readonly reads: string;
	/** Faults, in words, with which there the reading is met that is sound here. */
	readonly goesWith: readonly string[];
}

export const isReading = (one: Difference): one is ReadingDifference => one.kind === 'reading';

/**
 * How much each kind would mislead. A check that both have and that reads otherwise comes before all else, most of all where the reading
 * that is sound here condemns a part there; then what is done in another order; then where to measure; then what there is. What is missing
 * here counts by the share of the known families that have it. Every figure is a judgement of ours; only their order matters.
 */
export const misleads = {
	reading: { least: 0.6, apart: 0.2, condemns: 0.2 },
	step: { here: 0.55, known: 0.5 },
	'test-point': { here: 0.4, known: 0.2 },
	place: { here: 0.3, known: 0.35 },
	indication: { here: 0.32, known: 0.15 },
	check: { here: 0.25, known: 0.1 },
	tool: { here: 0.22, known: 0.05 },
	part: { here: 0.18, known: 0.12 }
} as const;
