/**
 * Heat and water of this family as lumped temperatures, between two looks of the board.
 *
 * C dT/dt = W (Tin - T) + Q - losses for each lump, W = rho cp q. Pipes are chains of mixed cells, which carry a delay with a little
 * spreading, as real pipes do. The plate exchanger passes heat by counterflow effectiveness at each moment's inlet temperatures. While
 * flows stand the equations are linear with constant coefficients, so that classical Runge-Kutta of order 4 is exact enough at half a
 * second (checked by halving the step in tests/core/appliance).
 *
 * Assumes constant water properties (those at 50 degC on the primary side and of the main on the tap side) and no loss between
 * appliance and tap.
 * @see shared/physics/exchanger.ts
 */
import { counterflowEffectiveness, plateConductance } from '#shared/physics/exchanger.ts';
import { heatPerLitreK } from '#shared/physics/water.ts';
import type { PrimaryFlows } from '#shared/appliance/components/primary-water.ts';
import type { Parameters } from '#shared/appliance/model.ts';
import { rungeKutta } from '#shared/appliance/running/runge-kutta.ts';

/** Where each lump stands in the state. */
export const lump = {
	exchanger: 0,
	flow1: 1,
	flow2: 2,
	flow3: 3,
	plateHot: 4,
	plateTap: 5,
	return1: 6,
	return2: 7,
	return3: 8,
	heatingPipe: 9,
	radiators: 10,
	flowSensor: 11,
	returnSensor: 12
} as const;
const LUMPS = 13;
const CELLS = 3;

export interface Plant {
	readonly state: Float64Array;
	/** Sets flows; call whenever pump, diverter or tap have moved. */
	flowsAre(flows: PrimaryFlows, tapLpm: number): void;
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
 * @param circuitTempC radiators at the start [degC]
 * @returns a plant standing as after earlier use: flow and return sides a little above the room
 */
export function makePlant(p: Parameters, circuitTempC: number): Plant {
	const room = p['room.tempC'];
	const main = p['water.mainTempC'];
	const kjPerLitreK = heatPerLitreK(50);
	const tapKjPerLitreK = heatPerLitreK(main);
	const flowCell = (p['primary.flowLitres'] * kjPerLitreK) / CELLS;
	const returnCell = (p['primary.returnLitres'] * kjPerLitreK) / CELLS;
	const exchangerKj = p['exchanger.kjPerK'];
	const hotKj = p['plate.hotKjPerK'];
	const tapKj = p['plate.tapKjPerK'];
	const pipeKj = p['circuit.pipeKjPerK'];
	const radiatorsKj = p['circuit.kjPerK'];
	const radiatorsKw = p['circuit.kwPerK'];
	const pipeLoss = p['circuit.pipeLossKwPerK'];
	const casingLoss = p['casing.lossKwPerK'];
	const lag = 1 / p['sensor.timeS'];

	const state = new Float64Array(LUMPS);
	const warmFlow = room + p['rest.flowAboveRoomK'];
	const warmReturn = room + p['rest.returnAboveRoomK'];
	state.fill(warmFlow, lump.exchanger, lump.plateHot + 1);
	state[lump.plateTap] = warmReturn;
	state.fill(warmReturn, lump.return1, lump.return3 + 1);
	state[lump.heatingPipe] = circuitTempC;
	state[lump.radiators] = circuitTempC;
	state[lump.flowSensor] = warmFlow;
	state[lump.returnSensor] = warmReturn;

	let w = 0;
	let wPlate = 0;
	let wCircuit = 0;
	let wTap = 0;
	let plateKwPerK = 0;

	let heatKw = 0;

	function slope(y: Float64Array, out: Float64Array): void {
		const exchanger = y[0];
		const flow3 = y[3];
		const plateHot = y[4];
		const plateTap = y[5];
		const heatingPipe = y[9];
		const radiators = y[10];
		const passed = plateKwPerK * (flow3 - main);
		const back = w > 0 ? (wPlate * plateHot + wCircuit * radiators) / w : plateHot;
		out[0] = (heatKw - w * (exchanger - y[8]) - casingLoss * (exchanger - room)) / exchangerKj;
		out[1] = (w * (exchanger - y[1])) / flowCell;
		out[2] = (w * (y[1] - y[2])) / flowCell;
		out[3] = (w * (y[2] - flow3)) / flowCell;
		out[4] = (wPlate * (flow3 - plateHot) - passed) / hotKj;
		out[5] = (passed - wTap * (plateTap - main)) / tapKj;
		out[6] = (w * (back - y[6])) / returnCell;
		out[7] = (w * (y[6] - y[7])) / returnCell;
		out[8] = (w * (y[7] - y[8])) / returnCell;
		out[9] = (wCircuit * (flow3 - heatingPipe) - pipeLoss * (heatingPipe - room)) / pipeKj;
		out[10] = (wCircuit * (heatingPipe - radiators) - radiatorsKw * (radiators - room)) / radiatorsKj;
		out[11] = (exchanger - y[11]) * lag;
		out[12] = (y[6] - y[12]) * lag;
	}

	const carryOn = rungeKutta(state, slope);

	return {
		state,
		flowsAre(flows, tapLpm) {
			w = (kjPerLitreK * flows.totalLpm) / 60;
			wPlate = (kjPerLitreK * flows.plateLpm) / 60;
			wCircuit = (kjPerLitreK * flows.circuitLpm) / 60;
			wTap = (tapKjPerLitreK * tapLpm) / 60;
			const least = Math.min(wPlate, wTap);
			if (least <= 0) {
				plateKwPerK = 0;
				return;
			}
			const conductance = plateConductance({
				cleanKwPerK: p['plate.cleanKwPerK'],
				hotShare: 0.5,
				coldShare: 0.5,
				hotFlowRatio: flows.plateLpm / p['plate.hotNominalLpm'],
				coldFlowRatio: tapLpm / p['plate.tapNominalLpm'],
				foulingM2KPerW: p['plate.foulingM2KPerW'],
				areaM2: p['plate.areaM2'],
				openShare: p['plate.openShare']
			});
			plateKwPerK = counterflowEffectiveness(conductance / least, least / Math.max(wPlate, wTap)) * least;
		},
		advance(nowKw, stepS, steps) {
			heatKw = nowKw;
			carryOn(stepS, steps);
		},
		tapHeatKw: () => wTap * (state[lump.plateTap] - main),
		circuitHeatKw: () => wCircuit * (state[lump.heatingPipe] - state[lump.radiators]),
		lossKw: () => casingLoss * (state[lump.exchanger] - room) + pipeLoss * (state[lump.heatingPipe] - room),
		heldKj() {
			const pipes = flowCell * (state[1] + state[2] + state[3]) + returnCell * (state[6] + state[7] + state[8]);
			return exchangerKj * state[0] + pipes + hotKj * state[4] + tapKj * state[5] + pipeKj * state[9];
		}
	};
}
