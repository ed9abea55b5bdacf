/** A coil that carries tap water through the heating water of the main exchanger. */
import { counterflowEffectiveness, plateConductance } from '#shared/physics/exchanger.ts';
import { openedResistance } from '#shared/physics/hydraulics.ts';
import { heatPerLitreK } from '#shared/physics/water.ts';
import type { Parameters } from '#shared/appliance/model.ts';

/** What the coil takes per kelvin by which the heating water round it is warmer than what enters [kW/K], and what it carries on. */
export interface CoilHeat {
	readonly takesKwPerK: number;
	readonly streamKwPerK: number;
}

/**
 * The coil at a tap flow. Round it stands water that the flame keeps at about one temperature, so the stream alone sets the ratio of
 * capacities to nought; the film inside follows the flow to the power 0.8, scale lies in series.
 *
 * Q = (1 - exp(-UA / W)) W (Tround - Tmain)
 *
 * Assumes that the side of the heating water does not answer to the flow in the coil: it counts with the wall.
 * @see shared/physics/exchanger.ts
 */
export function coilHeat(p: Parameters, lpm: number): CoilHeat {
	if (lpm <= 0) return { takesKwPerK: 0, streamKwPerK: 0 };
	const streamKwPerK = (heatPerLitreK(p['water.mainTempC']) * lpm) / 60;
	const conductance = plateConductance({
		cleanKwPerK: p['coil.cleanKwPerK'],
		hotShare: 0,
		coldShare: p['coil.filmShare'],
		hotFlowRatio: 1,
		coldFlowRatio: lpm / p['coil.tapNominalLpm'],
		foulingM2KPerW: p['coil.foulingM2KPerW'],
		areaM2: p['coil.areaM2'],
		openShare: 1
	});
	return { takesKwPerK: counterflowEffectiveness(conductance / streamKwPerK, 0) * streamKwPerK, streamKwPerK };
}

/** Resistance of the coil to tap water, its bore narrowed by scale [bar/(l/min)2]. */
export function coilResistance(p: Parameters): number {
	return openedResistance(p['coil.tapR'], p['coil.openShare']);
}
