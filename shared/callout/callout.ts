/** One visit to one appliance with one hidden fault, made from a pack and a seed. */
import type { Parameters } from '#shared/appliance/model.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Complaint, Fault, HouseholdData } from '#shared/scenario/schema.ts';

export type GasName = HouseholdData['gas'];

export interface Household {
	readonly id: string;
	readonly says: string;
	readonly gas: GasName;
	/** Ids of the facts that are true here; the customer can be asked. */
	readonly facts: readonly string[];
}

/** One appliance in one household, sound and with its fault. */
export interface Machine {
	readonly household: Household;
	/** `null` is the healthy machine, used for comparison only. */
	readonly fault: Fault | null;
	/** 0 (healthy) to 1. */
	readonly severity: number;
	/** This very machine without its fault. */
	readonly sound: Parameters;
	readonly faulty: Parameters;
}

export interface Callout extends Machine {
	readonly pack: Pack;
	readonly seed: number;
	readonly complaint: Complaint;
	/** The words of the complaint that this customer uses. */
	readonly complaintSays: string;
}
