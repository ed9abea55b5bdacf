/** The gas side of a main exchanger: fins that take the heat of the flue gas on its way out. */
import { combustionEfficiencyNet, type CombustionGas } from '#shared/physics/combustion.ts';
import { counterflowEffectiveness } from '#shared/physics/exchanger.ts';
import type { Parameters } from '#shared/appliance/model.ts';

/** Well above the dew point and within what the efficiency is made for: flue gas loses sensible heat alone there [degC]. */
const SENSIBLE_C = 150;

/**
 * Flue temperature behind the fins, as a function of the water's temperature [degC], the air ratio and the air as a share of full.
 *
 * T = Tw + (Ta + D - Tw) exp(-N),  D = (t - Ta) / (1 - e(t)) at t = 150 degC,  N = Nn clean a^-0.2
 *
 * D is the rise that a flame without loss would have if its products kept the heat capacity they have at 150 degC, the same that the
 * efficiency is reckoned with; films follow the flow to the power 0.8, so transfer units fall with its power 0.2.
 * @see shared/physics/exchanger.ts (ratio of capacities nought) and combustion.ts
 */
export function finnedExchanger(p: Parameters, gas: CombustionGas): (waterTempC: number, lambda: number, air: number) => number {
	const airTempC = p['room.tempC'];
	const units = p['exchanger.gasSideUnits'] * p['exchanger.finsClean'];
	const flue = { gas, lambda: Infinity, flueTempC: SENSIBLE_C, airTempC };
	let riseK = 0;
	let left = 0;
	let knownAir = -1;
	return (waterTempC, lambda, air) => {
		if (lambda !== flue.lambda) {
			flue.lambda = lambda;
			riseK = (SENSIBLE_C - airTempC) / (1 - combustionEfficiencyNet(flue));
		}
		if (air !== knownAir) {
			knownAir = air;
			left = air > 0 ? 1 - counterflowEffectiveness(units * air ** -0.2, 0) : 0;
		}
		return waterTempC + (airTempC + riseK - waterTempC) * left;
	};
}
