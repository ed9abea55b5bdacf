/** Settled readings of this family, from a run and from what can be seen and measured without one. */
import { co2Percent, coRatio, o2Percent } from '#shared/physics/combustion.ts';
import { windingOhm } from '#shared/physics/circuit.ts';
import { burnt, gasPressures } from '#shared/appliance/components/gas-supply.ts';
import { sensorOhm } from '#shared/appliance/components/pipe-sensor.ts';
import { carbonMonoxidePpm, flueTestMbar } from '#shared/appliance/components/premix-burner.ts';
import { CLOSED_OHM, EARTH_OHM, LOAD_OHM } from '#shared/appliance/components/sound-wiring.ts';
import { tapWater } from '#shared/appliance/components/tap-water.ts';
import { terminalV } from '#shared/appliance/components/terminal.ts';
import type { Demand, Parameters } from '#shared/appliance/model.ts';
import { readRun, type ReadBy, type Whole } from '#shared/appliance/running/window.ts';
import { lockouts, tapDialPosition, type Lockout } from './control.ts';
import type { Quantity } from './quantities.ts';
import { simulate, type Moment } from './simulate.ts';
import { wanted } from './wanted.ts';

/** Resistances from here on are an open circuit. */
const OPEN_OHM = 1e7;

/** How long a run lasts before it is read [s]. */
export const RUN_S: Readonly<Record<Demand, number>> = { none: 2, tap: 240, 'part-tap': 240, both: 240, heating: 900 };

type Read = ReadBy<typeof wanted>;

interface Run {
	readonly p: Parameters;
	readonly demand: Demand;
	readonly means: Read['moving'] & Read['held'];
	readonly read: Read;
	readonly whole: Whole;
	readonly powered: boolean;
}

function water({ p, demand, means, read }: Run) {
	const flow = tapWater(p, demand, p['plate.tapR']);
	const tapFlowLpm = flow.applianceLpm + flow.crossedLpm;
	const main = p['water.mainTempC'];
	const tapTempC = tapFlowLpm > 0 ? (flow.applianceLpm * means.tapC + flow.crossedLpm * main) / tapFlowLpm : main;
	return {
		mainTempC: main,
		tapFlowLpm,
		applianceFlowLpm: flow.applianceLpm,
		inletShutFlowLpm: flow.inletShutLpm,
		otherOutletFlowLpm: flow.otherOutletLpm,
		tapTempC,
		tapHeatKw: means.tapKw,
		tapRiseK: tapTempC - main,
		filterOpenPercent: 100 * p['water.filterOpen'],
		turbineStictionLpm: p['turbine.stictionLpm'],
		turbineHz: (means.sensedLpm * p['turbine.pulsesPerLitre']) / 60,
		// The lamp is fed by the board.
		turbineSteadiness: boardAlive(p) ? read.throughout.turning : 0
	};
}

function primary({ p, means, whole }: Run) {
	const strength = p['pump.strength'];
	const pinTravels = p['diverter.motorTurns'] > 0 && p['board.tapOutput'] > 0 && p['board.heatingOutput'] > 0 && boardAlive(p);
	return {
		primaryFlowLpm: means.primaryLpm,
		primaryFlowTempC: means.flowC,
		primaryReturnTempC: means.returnC,
		primaryDifferenceK: means.flowC - means.returnC,
		heatingPipeTempC: means.heatingPipeC,
		heatingPipeAboveRoomK: means.heatingPipeC - p['room.tempC'],
		radiatorTempC: means.radiatorC,
		circuitHeatKw: means.circuitKw,
		lossKw: means.lossKw,
		storedKw: whole.storedKw,
		wetJoints: 0,
		systemPressureBar: p['system.pressureBar'],
		pumpRunsShare: means.pumpDriven,
		pumpHumShare: means.pumpDriven > 0.5 ? Math.sqrt(strength) : 0,
		// Torque of a small wet-rotor pump falls with the square of its speed.
		pumpSpindleShare: means.pumpDriven > 0.5 ? strength * strength : 0,
		diverterAtShare: means.diverterAt,
		diverterPinTravelShare: pinTravels ? 1 : 0,
		cartridgePinFreeShare: p['diverter.heldAt'] < 0 ? 1 : 0
	};
}

function burning({ p, means, read, whole }: Run) {
	const gas = burnt(p);
	const lit = means.lit > 0;
	const { gasShare, lambda, flameMicroA, flueC } = read.whileLit;
	const fanMost = read.most.fanShare;
	const now = gasPressures(p, gasShare);
	const standing = gasPressures(p, 0);
	const co2 = lit ? co2Percent(lambda, gas) : 0;
	const coPpm = lit ? carbonMonoxidePpm(p['burner.coBasePpm'], lambda) : 0;
	return {
		fanPercent: 100 * means.fanShare,
		fanSpeedRpm: means.fanShare * p['fan.maxRpm'],
		fanLatePercent: fanMost > 0.05 ? (100 * read.last.fanShare) / fanMost : 0,
		fanHeardPercent: fanMost > 0.05 ? Math.max(5, (100 * read.last.fanShare) / fanMost) : 0,
		fanLeastPercent: fanMost > 0.05 ? (100 * read.leastLate.fanShare) / fanMost : 0,
		burnerOnFraction: means.lit,
		burnerStarts: whole.starts,
		burnerLightings: whole.lightings,
		burnerSeen: whole.lightings === 0 ? 0 : whole.starts === 0 ? 1 : whole.lightings === 1 && lit ? 2 : 3,
		sparks: whole.sparks,
		gasStandingMbar: standing.inletMbar,
		gasInletMbar: now.inletMbar,
		gasMeterMbar: now.meterMbar,
		gasRateM3h: ((lit ? gasShare : 0) * p['burner.maxNetKw'] * 3.6) / gas.netMjPerM3,
		heatInputNetKw: means.inputNetKw,
		heatInputGrossKw: (means.inputNetKw * gas.grossMjPerM3) / gas.netMjPerM3,
		efficiencyNetPercent: means.inputNetKw > 0 ? (100 * means.heatKw) / means.inputNetKw : 0,
		gasTightnessDropMbar: 0,
		gasScreenOpenPercent: 100 * p['gas.inletOpen'],
		injectorOpenPercent: 100 * p['gas.injectorOpen'],
		co2Percent: co2,
		o2Percent: o2Percent(co2, gas.co2MaxPercent),
		coPpm,
		coRatio: lit ? coRatio(coPpm, co2) : Infinity,
		flueTempC: lit ? flueC : p['room.tempC'],
		flueTestMbar: flueTestMbar(p, means.fanShare),
		flueOpenPercent: 100 * p['flue.openShare'],
		trapOpenPercent: 100 * p['trap.openShare'],
		flameMicroA: lit ? flameMicroA : read.most.flameMicroA,
		electrodePercent: 100 * p['flame.electrode']
	};
}

function boardAlive(p: Parameters): boolean {
	return p['supply.fuse'] > 0 && p['board.alive'] > 0;
}

function electrics({ p, means, whole, powered }: Run) {
	const volts = p['supply.volts'];
	const onBoard = powered ? volts : 0;
	const winding = p['diverter.windingOhm'] >= OPEN_OHM ? Infinity : windingOhm(p['diverter.windingOhm'], p['room.tempC']);
	const terminal = (driven: boolean): number => terminalV(onBoard, driven, LOAD_OHM);
	const flow = [p['flowSensor.ohmFactor'], p['flowSensor.joined']] as const;
	const back = [p['returnSensor.ohmFactor'], p['returnSensor.joined']] as const;
	return {
		supplyV: volts,
		boardV: onBoard,
		displayLit: boardAlive(p) ? 1 : 0,
		earthOhm: EARTH_OHM,
		fuseOhm: powered ? CLOSED_OHM : Infinity,
		diverterTapV: terminalV(onBoard, means.tapLive > 0.5, winding),
		diverterHeatingV: terminalV(onBoard, means.heatingLive > 0.5, winding),
		diverterWindingOhm: winding,
		pumpV: terminal(means.pumpDriven > 0.5),
		fanV: terminal(means.fanDriven > 0.5),
		gasValveV: terminal(whole.gasDriven && p['limit.closed'] > 0),
		limitOhm: p['limit.closed'] > 0 ? CLOSED_OHM : Infinity,
		flowSensorOhm: sensorOhm(means.flowC, ...flow),
		returnSensorOhm: sensorOhm(means.returnC, ...back),
		flowSensorOffOhm: sensorOhm(p['room.tempC'], ...flow),
		returnSensorOffOhm: sensorOhm(p['room.tempC'], ...back),
		displayFlowC: boardAlive(p) && p['flowSensor.joined'] > 0 ? means.sensedFlowC : Infinity,
		displayReturnC: boardAlive(p) && p['returnSensor.joined'] > 0 ? means.sensedReturnC : Infinity,
		sensedFlowC: p['flowSensor.joined'] > 0 ? means.sensedFlowC : -20,
		sensedReturnC: p['returnSensor.joined'] > 0 ? means.sensedReturnC : -20,
		tapDialPercent: 100 * p['tapDial.set'],
		tapDialOhm: p['dial.ohm'] * tapDialPosition(p),
		tapDialTravelOhm: p['tapDial.spindle'] > 0 ? p['dial.ohm'] : 0,
		heatingDialOhm: p['dial.ohm'] * p['heatingDial.set'],
		lockout: lockouts.indexOf(whole.lockout as Lockout)
	};
}

/**
 * Settled quantities of the machine under a demand. Where the control cycles they are means over the last minute, those of gas and flame
 * over the time that it was lit. Names and units are in `quantities.ts`.
 * @param stepS integration step [s]
 */
export function settle(p: Parameters, demand: Demand, stepS: number): Record<Quantity, number> {
	const { read, whole } = readRun<Moment, typeof wanted>(wanted, RUN_S[demand], (observe) =>
		simulate(p, demand, RUN_S[demand], stepS, observe)
	);
	const run: Run = { p, demand, means: Object.assign({}, read.moving, read.held), read, whole, powered: p['supply.fuse'] > 0 };
	// Spreading so many keys into a literal costs more than the run.
	return Object.assign(water(run), primary(run), burning(run), electrics(run));
}
