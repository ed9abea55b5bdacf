/** One run of this family under one demand: board, burner, air, water and heat stepped together. Settled readings and traces both come from here. */
import { pumpFlowLpm, seriesResistance } from '#shared/physics/hydraulics.ts';
import { airShare, airSwitch, venturiMbar } from '#shared/appliance/components/fan-flue.ts';
import { finnedExchanger } from '#shared/appliance/components/finned-exchanger.ts';
import { flowSwitch } from '#shared/appliance/components/flow-switch.ts';
import { heatKept } from '#shared/appliance/components/flue-way.ts';
import { burnt } from '#shared/appliance/components/gas-supply.ts';
import { sensing } from '#shared/appliance/components/pipe-sensor.ts';
import { pressureBurner } from '#shared/appliance/components/pressure-burner.ts';
import { coilResistance } from '#shared/appliance/components/tap-coil.ts';
import { tapWater, type TapWater } from '#shared/appliance/components/tap-water.ts';
import type { Demand, Parameters } from '#shared/appliance/model.ts';
import { RADIATORS_ABOVE_ROOM_K } from '#shared/appliance/running/start.ts';
import { TICK_S } from '#shared/appliance/running/tick.ts';
import { restingBoard, settings, tick, type Board, type Inputs } from './control.ts';
import { lump, makePlant, type Plant } from './plant.ts';

/** The machine at one moment. The same object each time, changed in place: copy what is to be kept. */
export interface Moment {
	seconds: number;
	readonly board: Board;
	readonly plant: Plant;
	readonly water: TapWater;
	flowSwitchClosed: boolean;
	airSwitchClosed: boolean;
	circuitLpm: number;
	sensedFlowC: number;
	sensedTapC: number;
	/** Fan speed, and air drawn, shares of full. */
	fanShare: number;
	airShare: number;
	burning: boolean;
	/** Pressure at the burner's test point [mbar]; 0 with the valve shut. */
	burnerMbar: number;
	/** Gas burning, share of full. */
	gasShare: number;
	lambda: number;
	flameMicroA: number;
	flueTempC: number;
	/** Heat into the heating water [kW], and the net heat input it comes from. */
	heatKw: number;
	inputNetKw: number;
	limitClosed: boolean;
}

/** Share by which the air ratio may move before efficiency is worked out again: under 0.02 % of efficiency. */
const RATIO_HOLDS = 0.002;

/** Flow round the heating circuit with the pump driven [l/min]. */
function pumpedLpm(p: Parameters): number {
	if (p['pump.strength'] <= 0) return 0;
	return pumpFlowLpm(p['pump.shutoffBar'], p['pump.curveR'], p['pump.strength'], seriesResistance(p['primary.commonR'], p['circuit.r']));
}

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
	const water = tapWater(p, demand, coilResistance(p));
	const room = p['room.tempC'];
	const plant = makePlant(p, water.applianceLpm, room + (heatingCalled ? RADIATORS_ABOVE_ROOM_K : 0));
	const board = restingBoard();
	const set = settings(p);
	const gas = burnt(p);
	const rate = pressureBurner(p);
	const flueTempC = finnedExchanger(p, gas);
	const efficiency = heatKept(gas, room, RATIO_HOLDS);
	const rodIn = flowSwitch(p);
	const airProved = airSwitch(p);

	const fanKeeps = Math.exp(-TICK_S / p['fan.timeS']);
	const fanTurns = p['fan.turns'];
	const airPerSpeed = airShare(p);
	const tubeJoined = p['airSwitch.tubeJoined'];
	const maxNetKw = p['burner.maxNetKw'];
	const limitOpensC = p['limit.opensC'];
	const mostLpm = pumpedLpm(p);
	const flowSensed = sensing(p['flowSensor.ohmFactor']);
	const tapSensed = sensing(p['tapSensor.ohmFactor']);
	const steps = Math.max(1, Math.ceil(TICK_S / stepS - 1e-9));
	const rounds = eachStep ? steps : 1;
	const state = plant.state;

	const now: Moment = {
		seconds: 0,
		board,
		plant,
		water,
		flowSwitchClosed: rodIn(water.applianceLpm, false),
		airSwitchClosed: airProved(0, false),
		circuitLpm: 0,
		sensedFlowC: flowSensed(state[lump.flowSensor]),
		sensedTapC: tapSensed(state[lump.tapSensor]),
		fanShare: 0,
		airShare: 0,
		burning: false,
		burnerMbar: 0,
		gasShare: 0,
		lambda: Infinity,
		flameMicroA: 0,
		flueTempC: room,
		heatKw: 0,
		inputNetKw: 0,
		limitClosed: p['limit.closed'] > 0
	};
	const input: Inputs = {
		flowSwitchClosed: false,
		heatingCalled,
		airSwitchClosed: false,
		tapC: 0,
		flowC: 0,
		limitClosed: true,
		flameMicroA: 0
	};

	observe(now);
	const ticks = Math.round(seconds / TICK_S);
	for (let n = 1; n <= ticks; n += 1) {
		now.flowSwitchClosed = rodIn(water.applianceLpm, now.flowSwitchClosed);
		input.flowSwitchClosed = now.flowSwitchClosed;
		input.airSwitchClosed = now.airSwitchClosed;
		input.tapC = now.sensedTapC;
		input.flowC = now.sensedFlowC;
		input.limitClosed = now.limitClosed;
		input.flameMicroA = now.flameMicroA;
		tick(board, set, input);

		now.circuitLpm = board.pump ? mostLpm : 0;
		plant.circuitFlowIs(now.circuitLpm);

		const fanTo = board.fan ? fanTurns : 0;
		now.fanShare = fanTo + (now.fanShare - fanTo) * fanKeeps;
		now.airShare = now.fanShare * airPerSpeed;
		now.airSwitchClosed = airProved(tubeJoined * venturiMbar(p, now.airShare), now.airSwitchClosed);

		if (board.gas) {
			const r = rate(board.asked, now.airShare);
			now.burnerMbar = r.burnerMbar;
			now.burning = r.flameMicroA > 0 && (now.burning || board.spark);
			now.gasShare = now.burning ? r.gasShare : 0;
			now.lambda = r.lambda;
			now.flameMicroA = now.burning ? r.flameMicroA : 0;
		} else {
			now.burning = false;
			now.burnerMbar = now.gasShare = now.flameMicroA = 0;
		}
		if (now.burning) {
			now.flueTempC = flueTempC(state[lump.exchanger], now.lambda, now.airShare);
			now.inputNetKw = maxNetKw * now.gasShare;
			now.heatKw = now.inputNetKw * efficiency(now.flueTempC, now.lambda);
		} else {
			now.flueTempC = room;
			now.inputNetKw = 0;
			now.heatKw = 0;
		}

		for (let step = 1; step <= rounds; step += 1) {
			plant.advance(now.heatKw, TICK_S / steps, steps / rounds);
			now.seconds = (n - 1 + step / rounds) * TICK_S;
			now.sensedFlowC = flowSensed(state[lump.flowSensor]);
			now.sensedTapC = tapSensed(state[lump.tapSensor]);
			if (step < rounds) observe(now);
		}
		if (state[lump.exchanger] > limitOpensC) now.limitClosed = false;
		observe(now);
	}
}
