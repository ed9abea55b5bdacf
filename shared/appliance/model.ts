/**
 * What every appliance family offers to the rest of the product. A family knows its own components and control;
 * nothing outside its folder knows which family it is talking to.
 */

/** What the appliance is asked for while a check is made. `part-tap` is one hot tap opened part of the way. */
export const demands = ['none', 'tap', 'part-tap', 'heating', 'both'] as const;
export type Demand = (typeof demands)[number];

/** A machine: every number that the family's physics needs, by dotted key (`plate.foulingM2KPerW`), in the key's own unit. */
export type Parameters = Readonly<Record<string, number>>;

/** True quantities of a settled run, by name with its unit in it (`tapTempC`). Never rounded, never disturbed by an instrument. */
export type Quantities = Readonly<Record<string, number>>;

/**
 * Names that rooms outside a family may ask for, each with the unit that it has in every family. A family need not have them all; what it
 * has of them means the same as elsewhere. Held to in tests/core/appliance/common-names.test.ts.
 */
export const commonNames = {
	/** Households set these where they know better than the family; the gas burnt, and its pressure, go together. */
	parameters: {
		'gas.reference': '1',
		'gas.meterMbar': 'mbar',
		'water.mainTempC': 'degC',
		'water.mainPressureBar': 'bar',
		'tap.opening': '1',
		'room.tempC': 'degC'
	},
	/** An appliance is held to these as it is left. */
	quantities: { tapTempC: 'degC', coPpm: 'ppm', co2Percent: '%', lockout: '' },
	/** These can be heard. */
	signals: { fanPercent: '%', sparking: '1', burnerOn: '1' }
} as const;

/**
 * Quantities that nobody reads as they are, each with those by which anyone sees it: who feels the tap run cold has seen that its water is
 * not warmed. Common practice, no source. Names are the same in every family, as those above.
 */
export const seenBy: Readonly<Record<string, readonly string[]>> = {
	tapRiseK: ['tapTempC'],
	circuitHeatKw: ['radiatorTempC'],
	heatingPipeAboveRoomK: ['heatingPipeTempC'],
	burnerStarts: ['burnerOnFraction']
};

/** One named number that a family takes in or gives out. */
export interface Definition {
	readonly key: string;
	readonly unit: string;
	readonly says: string;
}

/** One line of a family's list of quantities or parameters. */
export const define = (key: string, unit: string, says: string): Definition => ({ key, unit, says });

/** Signals over time: `signals[name][i]` is the value at `seconds[i]`. */
export interface Trace {
	readonly seconds: Float64Array;
	readonly signals: Readonly<Record<string, Float64Array>>;
}

export interface ApplianceModel {
	readonly id: string;
	/** Every parameter the family reads; data that lacks one, or names another, is refused. */
	readonly parameters: readonly Definition[];
	/** Every quantity that `settle` returns, so that checks can be held against them. */
	readonly quantities: readonly Definition[];
	readonly signals: readonly Definition[];
	/** How long a run under each demand lasts before it counts as settled [s]. */
	readonly runS: Readonly<Record<Demand, number>>;
	/** Lockout and shutdown causes by the number that the quantity `lockout` carries; 0 is none. */
	readonly lockouts: readonly string[];
	/**
	 * The demand run from rest until readings have steadied, or averaged over a window where the control cycles.
	 * @param stepS integration step [s], at most 0.5; the family's own when left out
	 */
	settle(machine: Parameters, demand: Demand, stepS?: number): Quantities;
	/**
	 * The same run as signals.
	 * @param seconds length of the run [s], > 0
	 * @param stepS   sampling step [s], 0.05 to 60, and the integration step where it is finer than the family's own, which it is when left out
	 */
	trace(machine: Parameters, demand: Demand, seconds: number, stepS?: number): Trace;
}
