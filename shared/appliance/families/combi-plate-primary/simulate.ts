/** One run of this family under one demand: board, burner, water and heat stepped together. Settled readings and traces both come from here. */
import { combustionEfficiencyNet, combustionOf } from '#shared/physics/combustion.ts';
import type { GasId } from '#shared/physics/gas.ts';
import { ntc10k, ntcOhm, ntcTempC } from '#shared/physics/thermistor.ts';
import { flowTurbine } from '#shared/appliance/components/flow-turbine.ts';
import { premixBurner } from '#shared/appliance/components/premix-burner.ts';
import { primaryFlows, type PrimaryFlows } from '#shared/appliance/components/primary-water.ts';
import { tapWater, type TapWater } from '#shared/appliance/components/tap-water.ts';
import type { Demand, Parameters } from '#shared/appliance/model.ts';
import { restingBoard, settings, tick, TICK_S, type Board } from './control.ts';
import { lump, makePlant, type Plant } from './plant.ts';

/** The machine at one moment. The same object each time, changed in place: copy what is to be kept. */
export interface Moment {
	seconds: number;
	readonly board: Board;
	readonly plant: Plant;
	readonly water: TapWater;
	flows: PrimaryFlows;
	tapSensedLpm: number;
	sensedFlowC: number;
	sensedReturnC: number;
	/** Fan speed, share of full. */
	fanShare: number;
	burning: boolean;
	/** Gas passed, share of full; 0 when not burning. */
	gasShare: number;
	lambda: number;
	flameMicroA: number;
	flueTempC: number;
	/** Heat into the primary water [kW], and the net heat input it comes from. */
	heatKw: number;
	inputNetKw: number;
	diverterAt: number;
	limitClosed: boolean;
}

/** Knots of the sensing curve [degC]: straight lines between them stay within 0.02 K of it. */
const KNOTS = { fromC: -20, stepK: 4, count: 42 };

/**
 * What the board makes of a thermistor: a resistance that is off by a factor, read through the sound curve, becomes a wrong temperature.
 * Laid out once for a run, since the curve and its inverse are too dear for every tick.
 * @see shared/physics/thermistor.ts; held to it in tests/core/appliance/sensing.test.ts
 */
export function sensing(ohmFactor: number): (tempC: number) => number {
	if (ohmFactor === 1) return (tempC) => tempC;
	const { fromC, stepK, count } = KNOTS;
	const knots = Float64Array.from({ length: count }, (_, i) => ntcTempC(ohmFactor * ntcOhm(fromC + i * stepK, ntc10k), ntc10k));
	return (tempC) => {
		const at = (tempC - fromC) / stepK;
		const i = Math.max(0, Math.min(count - 2, Math.floor(at)));
		return knots[i] + (at - i) * (knots[i + 1] - knots[i]);
	};
}

/** The reference gas that the machine burns. @throws RangeError where `gas.reference` is none. */
export function burnt(p: Parameters) {
	const gas = combustionOf(`G${p['gas.reference']}` as GasId);
	if (!gas) throw new RangeError(`gas.reference is ${p['gas.reference']}; expected 20, 25, 30 or 31`);
	return gas;
}

/** Flue temperature [K] that has to move before efficiency is worked out again: 0.01 % of efficiency. */
const EFFICIENCY_HOLDS_K = 0.25;

/** Heating has been on for a while before anyone measures it: radiators start this far above the room. */
export const RADIATORS_ABOVE_ROOM_K = 20;

/**
 * @param seconds length of the run [s]  @param stepS integration step [s]; the board looks every half second whatever it is
 * @param observe called once at the start and after every half second, or after every step where `eachStep`
 */
export function simulate(
	p: Parameters,
	demand: Demand,
	seconds: number,
	stepS: number,
	observe: (moment: Moment) => void,
	eachStep = false
): void {
	const heatingCalled = demand === 'heating' || demand === 'both';
	const water = tapWater(p, demand);
	const plant = makePlant(p, p['room.tempC'] + (heatingCalled ? RADIATORS_ABOVE_ROOM_K : 0));
	const board = restingBoard();
	const set = settings(p);
	const rate = premixBurner(p);
	const turbine = flowTurbine(p);
	const flue = { gas: burnt(p), lambda: Infinity, flueTempC: p['room.tempC'], airTempC: p['room.tempC'] };

	const fanKeeps = Math.exp(-TICK_S / p['fan.timeS']);
	const fanStrength = p['fan.strength'];
	const stroke = TICK_S / p['diverter.strokeS'];
	const heldAt = p['diverter.heldAt'];
	const motorTurns = p['diverter.motorTurns'] > 0;
	const maxNetKw = p['burner.maxNetKw'];
	const approach = p['exchanger.approachK'];
	const room = p['room.tempC'];
	const limitOpensC = p['limit.opensC'];
	const counted = p['board.countsTurbine'];
	const flowSensed = sensing(p['flowSensor.ohmFactor']);
	const returnSensed = sensing(p['returnSensor.ohmFactor']);
	const sensorsJoined = p['flowSensor.joined'] > 0 && p['returnSensor.joined'] > 0;
	const steps = Math.max(1, Math.ceil(TICK_S / stepS - 1e-9));
	const rounds = eachStep ? steps : 1;
	const state = plant.state;

	const now: Moment = {
		seconds: 0,
		board,
		plant,
		water,
		flows: { totalLpm: 0, plateLpm: 0, circuitLpm: 0 },
		tapSensedLpm: 0,
		sensedFlowC: flowSensed(state[lump.flowSensor]),
		sensedReturnC: returnSensed(state[lump.returnSensor]),
		fanShare: 0,
		burning: false,
		gasShare: 0,
		lambda: Infinity,
		flameMicroA: 0,
		flueTempC: room,
		heatKw: 0,
		inputNetKw: 0,
		diverterAt: heldAt >= 0 ? heldAt : p['diverter.startsAt'],
		limitClosed: p['limit.closed'] > 0
	};
	plant.flowsAre(now.flows, water.applianceLpm);

	const input = { tapSensedLpm: 0, heatingCalled, flowC: 0, returnC: 0, sensorsJoined, limitClosed: true, fanShare: 0, flameMicroA: 0 };
	let pumped = false;
	let efficiency = 0;
	let efficiencyAtC = -Infinity;
	let efficiencyAtLambda = 0;

	observe(now);
	const ticks = Math.round(seconds / TICK_S);
	for (let n = 1; n <= ticks; n += 1) {
		now.tapSensedLpm = turbine(water.applianceLpm, now.seconds, now.tapSensedLpm > 0);
		input.tapSensedLpm = counted * now.tapSensedLpm;
		input.flowC = now.sensedFlowC;
		input.returnC = now.sensedReturnC;
		input.limitClosed = now.limitClosed;
		input.fanShare = now.fanShare;
		input.flameMicroA = now.flameMicroA;
		tick(board, set, input);

		const toward = board.tapLive ? 0 : board.heatingLive ? 1 : now.diverterAt;
		const wasAt = now.diverterAt;
		if (motorTurns && heldAt < 0 && toward !== wasAt) {
			now.diverterAt = toward < wasAt ? Math.max(toward, wasAt - stroke) : Math.min(toward, wasAt + stroke);
		}
		if (now.diverterAt !== wasAt || board.pump !== pumped) {
			pumped = board.pump;
			now.flows = primaryFlows(p, now.diverterAt, pumped);
			plant.flowsAre(now.flows, water.applianceLpm);
		}

		const fanTo = Math.min(board.fanCommand, fanStrength);
		now.fanShare = fanTo + (now.fanShare - fanTo) * fanKeeps;
		const r = rate(now.fanShare);
		now.burning = board.gas && r.flameMicroA > 0 && (now.burning || board.spark);
		now.gasShare = now.burning ? r.gasShare : 0;
		now.lambda = r.lambda;
		now.flameMicroA = now.burning ? r.flameMicroA : 0;
		if (now.burning) {
			now.flueTempC = state[lump.return3] + approach * now.gasShare;
			if (Math.abs(now.flueTempC - efficiencyAtC) > EFFICIENCY_HOLDS_K || r.lambda !== efficiencyAtLambda) {
				efficiencyAtC = flue.flueTempC = now.flueTempC;
				efficiencyAtLambda = flue.lambda = r.lambda;
				efficiency = combustionEfficiencyNet(flue);
			}
			now.inputNetKw = maxNetKw * now.gasShare;
			now.heatKw = now.inputNetKw * efficiency;
		} else {
			now.flueTempC = room;
			now.inputNetKw = 0;
			now.heatKw = 0;
		}

		for (let step = 1; step <= rounds; step += 1) {
			plant.advance(now.heatKw, TICK_S / steps, steps / rounds);
			now.seconds = (n - 1 + step / rounds) * TICK_S;
			now.sensedFlowC = flowSensed(state[lump.flowSensor]);
			now.sensedReturnC = returnSensed(state[lump.returnSensor]);
			if (step < rounds) observe(now);
		}
		if (state[lump.exchanger] > limitOpensC) now.limitClosed = false;
		observe(now);
	}
}
