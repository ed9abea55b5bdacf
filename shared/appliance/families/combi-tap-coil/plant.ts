/**
 * Heat and water of this family as lumped temperatures, between two looks of the board.
 *
 * C dT/dt = W (Tin - T) + Q - losses for each lump, W = rho cp q. The heating water in the main exchanger is one lump, stirred by what
 * rises from the flame; the coil takes its heat from there. With the pump off nothing leaves that lump for the heating circuit.
 *
 * Assumes constant water properties (those at 50 degC on the heating side and of the main on the tap side), no loss between appliance and
 * tap, and no water that rises round the circuit by itself.
 */
import { heatPerLitreK } from '#shared/physics/water.ts';
import { coilHeat } from '#shared/appliance/components/tap-coil.ts';
import type { Parameters } from '#shared/appliance/model.ts';
import { rungeKutta } from '#shared/appliance/running/runge-kutta.ts';

/** Where each lump stands in the state. */
export const lump = {
	exchanger: 0,
	coil: 1,
	heatingPipe: 2,
	radiators: 3,
	return1: 4,
	return2: 5,
	return3: 6,
	flowSensor: 7,
	tapSensor: 8
} as const;
const LUMPS = 9;
const RETURN_CELLS = 3;

export interface Plant {
	readonly state: Float64Array;
	/** Sets the flow round the heating circuit; call whenever the pump starts or stops [l/min]. */
	circuitFlowIs(lpm: number): void;
	/** Carries the state on by `steps` steps of `stepS`, with heat into the main exchanger held. */
	advance(heatKw: number, stepS: number, steps: number): void;
	/** Heat passing now [kW]: to the tap, to the heating circuit, and lost to the room. */
	tapHeatKw(): number;
	circuitHeatKw(): number;
	lossKw(): number;
	/** Heat held in the appliance above 0 degC, radiators left out [kJ]. */
	heldKj(): number;
}

/**
 * @param tapLpm       through the coil, the same throughout [l/min]
 * @param circuitTempC radiators at the start [degC]
 * @returns a plant standing as after earlier use: the main exchanger a little above the room
 */
export function makePlant(p: Parameters, tapLpm: number, circuitTempC: number): Plant {
	const room = p['room.tempC'];
	const main = p['water.mainTempC'];
	const kjPerLitreK = heatPerLitreK(50);
	const returnCell = (p['primary.returnLitres'] * kjPerLitreK) / RETURN_CELLS;
	const exchangerKj = p['exchanger.kjPerK'];
	const coilKj = p['coil.tapKjPerK'];
	const pipeKj = p['circuit.pipeKjPerK'];
	const radiatorsKj = p['circuit.kjPerK'];
	const radiatorsKw = p['circuit.kwPerK'];
	const pipeLoss = p['circuit.pipeLossKwPerK'];
	const casingLoss = p['casing.lossKwPerK'];
	const lag = 1 / p['sensor.timeS'];
	const { takesKwPerK, streamKwPerK } = coilHeat(p, tapLpm);
	const stillKwPerK = tapLpm > 0 ? 0 : p['coil.stillKwPerK'];

	const state = new Float64Array(LUMPS);
	state.fill(circuitTempC);
	const warm = room + p['rest.exchangerAboveRoomK'];
	for (const at of [lump.exchanger, lump.coil, lump.flowSensor, lump.tapSensor]) state[at] = warm;

	let heatKw = 0;
	let w = 0;

	function slope(y: Float64Array, out: Float64Array): void {
		const exchanger = y[0];
		const coil = y[1];
		const heatingPipe = y[2];
		const radiators = y[3];
		const taken = takesKwPerK * (exchanger - main) + stillKwPerK * (exchanger - coil);
		out[0] = (heatKw - taken - w * (exchanger - y[6]) - casingLoss * (exchanger - room)) / exchangerKj;
		out[1] = (taken - streamKwPerK * (coil - main)) / coilKj;
		out[2] = (w * (exchanger - heatingPipe) - pipeLoss * (heatingPipe - room)) / pipeKj;
		out[3] = (w * (heatingPipe - radiators) - radiatorsKw * (radiators - room)) / radiatorsKj;
		out[4] = (w * (radiators - y[4])) / returnCell;
		out[5] = (w * (y[4] - y[5])) / returnCell;
		out[6] = (w * (y[5] - y[6])) / returnCell;
		out[7] = (exchanger - y[7]) * lag;
		out[8] = (coil - y[8]) * lag;
	}
	const carryOn = rungeKutta(state, slope);

	return {
		state,
		circuitFlowIs(lpm) {
			w = (kjPerLitreK * lpm) / 60;
		},
		advance(nowKw, stepS, steps) {
			heatKw = nowKw;
			carryOn(stepS, steps);
		},
		tapHeatKw: () => streamKwPerK * (state[lump.coil] - main),
		circuitHeatKw: () => w * (state[lump.heatingPipe] - state[lump.radiators]),
		lossKw: () => casingLoss * (state[lump.exchanger] - room) + pipeLoss * (state[lump.heatingPipe] - room),
		heldKj: () => exchangerKj * state[0] + coilKj * state[1] + pipeKj * state[2] + returnCell * (state[4] + state[5] + state[6])
	};
}
