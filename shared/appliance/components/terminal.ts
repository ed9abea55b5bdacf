/** What a meter shows at the terminals of a load that a board switches. */
import { dividerV, parallelOhm } from '#shared/physics/circuit.ts';

/** A common meter on volts; and what a few metres of wire beside a live one pass to a wire that is not driven. Common practice, no source. */
const METER_OHM = 10e6;
const PICK_UP_OHM = 40e6;

/**
 * Volts between a switched terminal and neutral. A terminal that is not driven picks up what its neighbours pass, and the load holds that
 * down; where the load is open circuit only the meter does, and the meter shows volts that could not drive anything.
 *
 * Assumes the pick-up to be a resistance: size only, its phase left out.
 * @param supplyV  mains where the board has it, 0 where it has none [V]
 * @param loadOhm  the load [ohm], infinite when open circuit
 * @returns [V]
 * @see shared/physics/circuit.ts
 */
export function terminalV(supplyV: number, driven: boolean, loadOhm: number): number {
	return driven ? supplyV : dividerV(supplyV, PICK_UP_OHM, parallelOhm(loadOhm, METER_OHM));
}
