/** Tap water from the main through an appliance to the tap. */
import { flowLpm, openedResistance, parallelResistance, seriesResistance } from '#shared/physics/hydraulics.ts';
import type { Demand, Parameters } from '#shared/appliance/model.ts';

export interface TapWater {
	/** Through the appliance. */
	readonly applianceLpm: number;
	/** Past it, at a crossed mixer. */
	readonly crossedLpm: number;
	/** At a cold outlet elsewhere, the hot tap shut. */
	readonly otherOutletLpm: number;
	/** At the hot tap with the appliance's cold inlet shut. */
	readonly inletShutLpm: number;
}

/**
 * Flow that the main drives through supply, filter, restrictor and what heats it to the tap; a crossed mixer is a second way
 * in parallel, from the same supply to the tap.
 *
 * q = sqrt(p / r), resistances in series add, in parallel 1/sqrt(r) adds.
 *
 * Assumes fully turbulent flow and no height between main and tap.
 * @param heaterR resistance of the way through what heats it [bar/(l/min)2]
 * @returns flows [l/min]; no tap flow unless a tap is open
 * @see shared/physics/hydraulics.ts
 */
export function tapWater(p: Parameters, demand: Demand, heaterR: number): TapWater {
	const appliance = seriesResistance(openedResistance(p['water.filterR'], p['water.filterOpen']), p['water.restrictorR'], heaterR);
	const crossing = openedResistance(p['mixer.crossR'], p['mixer.crossOpen']);
	const otherOutletLpm = flowLpm(p['water.mainPressureBar'], seriesResistance(p['water.supplyR'], p['outlet.r']));
	const wide = openedResistance(p['tap.r'], p['tap.opening']);
	const inletShutLpm = flowLpm(p['water.mainPressureBar'], seriesResistance(p['water.supplyR'], crossing, wide));
	if (demand === 'none' || demand === 'heating') return { applianceLpm: 0, crossedLpm: 0, otherOutletLpm, inletShutLpm };

	const tap = demand === 'part-tap' ? openedResistance(p['tap.r'], p['tap.partOpening']) : wide;
	const both = parallelResistance(appliance, crossing);
	const total = flowLpm(p['water.mainPressureBar'], seriesResistance(p['water.supplyR'], both, tap));
	const applianceLpm = total * Math.sqrt(both / appliance);
	return { applianceLpm, crossedLpm: total - applianceLpm, otherOutletLpm, inletShutLpm };
}
