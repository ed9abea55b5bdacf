/**
 * The evidence table: thousands of sampled machines, stratified by fault, with the true value of every check under every demand it
 * offers. Made once from a pack (in parts, so that workers can share it), kept under the pack's hash.
 */
import type { Demand } from '#shared/appliance/model.ts';

/** One check under one demand: the unit of evidence. */
export interface Column {
	readonly check: string;
	readonly demand: Demand;
	/** True value of each row. */
	readonly values: Float32Array;
	/** Smoothing added to the instrument's error: the spread between neighbouring rows of one fault, one number a fault. */
	readonly smoothing: Float32Array;
	/** Healthy machines: mean, standard deviation, the band that holds 90 % of them, and the sample that these come from. */
	readonly healthy: {
		readonly mean: number;
		readonly sd: number;
		readonly from: number;
		readonly to: number;
		readonly values: Float32Array;
	};
}

export interface EvidenceTable {
	readonly packHash: string;
	readonly rows: number;
	/** Index into `pack.faults` of each row. */
	readonly fault: Uint16Array;
	readonly severity: Float32Array;
	/** Prior weight of each row: the fault's weight, raised by the row's household facts, shared by the fault's rows. */
	readonly prior: Float64Array;
	/** Bit c set: complaint number c of the pack fits this machine. */
	readonly complaints: Uint32Array;
	readonly columns: readonly Column[];
}

/** What the readings so far make of it. */
export interface Suspicion {
	/** Probability of each fault, in the order of `pack.faults`; sums to 1. */
	readonly faults: Float64Array;
	/** Probability that each remedy cures, in the order of `pack.remedies`; may sum to more than 1. */
	readonly remedies: Float64Array;
	/** Weight of each row, normalised. */
	readonly weights: Float64Array;
	/** Effective number of rows left; under about ten the belief has been widened. */
	readonly effective: number;
}
