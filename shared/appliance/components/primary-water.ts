/** Primary water: pump, diverter, and the two ways it can go. */
import { openedResistance, parallelResistance, pumpFlowLpm, seriesResistance } from '#shared/physics/hydraulics.ts';
import type { Parameters } from '#shared/appliance/model.ts';

export interface PrimaryFlows {
	readonly totalLpm: number;
	readonly plateLpm: number;
	readonly circuitLpm: number;
}

const STILL: PrimaryFlows = { totalLpm: 0, plateLpm: 0, circuitLpm: 0 };

/**
 * Primary flow with the pump running and the diverter at a position, split between plate exchanger and heating circuit so that both see
 * the same pressure.
 *
 * Assumes fully turbulent flow everywhere. The heating side keeps its let-by when shut; the plate side shuts tight.
 * @param position 0 at hot water, 1 at heating
 * @returns flows [l/min], all 0 when the pump stands
 * @see shared/physics/hydraulics.ts
 */
export function primaryFlows(p: Parameters, position: number, pumpRuns: boolean): PrimaryFlows {
	if (!pumpRuns || p['pump.strength'] <= 0) return STILL;
	const plateR = seriesResistance(
		openedResistance(p['plate.primaryR'], p['plate.openShare']),
		openedResistance(p['diverter.valveR'], 1 - position)
	);
	const circuitR = seriesResistance(p['circuit.r'], openedResistance(p['diverter.valveR'], Math.max(position, p['diverter.letBy'])));
	const both = parallelResistance(plateR, circuitR);
	const totalLpm = pumpFlowLpm(p['pump.shutoffBar'], p['pump.curveR'], p['pump.strength'], seriesResistance(p['primary.commonR'], both));
	const plateLpm = totalLpm * Math.sqrt(both / plateR);
	return { totalLpm, plateLpm, circuitLpm: totalLpm - plateLpm };
}
