/** One run of this family under one demand: board, burner, water and heat stepped together. Settled readings and traces both come from here. */
import { flowTurbine } from '#shared/appliance/components/flow-turbine.ts';
import { heatKept } from '#shared/appliance/components/flue-way.ts';
import { burnt } from '#shared/appliance/components/gas-supply.ts';
import { sensing } from '#shared/appliance/components/pipe-sensor.ts';
import { premixBurner } from '#shared/appliance/components/premix-burner.ts';
import { primaryFlows, type PrimaryFlows } from '#shared/appliance/components/primary-water.ts';
import { tapWater, type TapWater } from '#shared/appliance/components/tap-water.ts';
import type { Demand, Parameters } from '#shared/appliance/model.ts';
import { RADIATORS_ABOVE_ROOM_K } from '#shared/appliance/running/start.ts';
import { TICK_S } from '#shared/appliance/running/tick.ts';
import { restingBoard, settings, tick, type Board } from './control.ts';
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
	const water = tapWater(p, demand, p['plate.tapR']);
	const plant = makePlant(p, p['room.tempC'] + (heatingCalled ? RADIATORS_ABOVE_ROOM_K : 0));
	const board = restingBoard();
	const set = settings(p);
	const rate = premixBurner(p);
	const turbine = flowTurbine(p);
	const efficiency = heatKept(burnt(p), p['room.tempC']);

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
			now.inputNetKw = maxNetKw * now.gasShare;
			now.heatKw = now.inputNetKw * efficiency(now.flueTempC, r.lambda);
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
