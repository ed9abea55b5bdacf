/** Settled readings of this family, from a run and from what can be seen and measured without one. */
import { co2Percent, coRatio, o2Percent } from '#shared/physics/combustion.ts';
import { windingOhm } from '#shared/physics/circuit.ts';
import { venturiMbar } from '#shared/appliance/components/fan-flue.ts';
import { burnt, gasPressures } from '#shared/appliance/components/gas-supply.ts';
import { sensorOhm } from '#shared/appliance/components/pipe-sensor.ts';
import { fullBurnerMbar, openBurnerCoPpm } from '#shared/appliance/components/pressure-burner.ts';
import { coilResistance } from '#shared/appliance/components/tap-coil.ts';
import { CLOSED_OHM, EARTH_OHM, LOAD_OHM } from '#shared/appliance/components/sound-wiring.ts';
import { tapWater } from '#shared/appliance/components/tap-water.ts';
import { terminalV } from '#shared/appliance/components/terminal.ts';
import type { Demand, Parameters } from '#shared/appliance/model.ts';
import { readRun, type ReadBy, type Whole } from '#shared/appliance/running/window.ts';
import { lockouts, type Lockout } from './control.ts';
import type { Quantity } from './quantities.ts';
import { simulate, type Moment } from './simulate.ts';
import { wanted } from './wanted.ts';

/** How long a run lasts before it is read [s]. With nothing asked for, a minute: what lights by itself lights within it. */
export const RUN_S: Readonly<Record<Demand, number>> = { none: 60, tap: 240, 'part-tap': 240, both: 240, heating: 900 };

/** What the board gives the modulator at no rate, what it adds up to full rate, and what it gives an open coil; and the flow switch [V d.c.]. */
const MODULATOR_V = { least: 2, more: 10, open: 18 };
const FLOW_SWITCH_V = 12;

type Read = ReadBy<typeof wanted>;

interface Run {
	readonly p: Parameters;
	readonly demand: Demand;
	readonly read: Read;
	readonly whole: Whole;
	readonly powered: boolean;
	readonly alive: boolean;
}

function water({ p, demand, read, alive }: Run) {
	const flow = tapWater(p, demand, coilResistance(p));
	const tapFlowLpm = flow.applianceLpm + flow.crossedLpm;
	const main = p['water.mainTempC'];
	const tapTempC = tapFlowLpm > 0 ? (flow.applianceLpm * read.moving.coilC + flow.crossedLpm * main) / tapFlowLpm : main;
	return {
		mainTempC: main,
		tapFlowLpm,
		applianceFlowLpm: flow.applianceLpm,
		inletShutFlowLpm: flow.inletShutLpm,
		otherOutletFlowLpm: flow.otherOutletLpm,
		tapTempC,
		tapHeatKw: read.moving.tapKw,
		tapRiseK: tapTempC - main,
		filterOpenPercent: 100 * p['water.filterOpen'],
		flowSwitchInShare: read.throughout.rodIn,
		flowSwitchStiffness: p['flowSwitch.heldAt'] < 0 ? p['flowSwitch.stiffness'] : Infinity,
		flowSwitchV: alive ? FLOW_SWITCH_V * (1 - read.throughout.rodIn) : 0
	};
}

function heating({ p, read: { moving, held }, whole }: Run) {
	const strength = p['pump.strength'];
	const driven = held.pumpDriven > 0.5;
	return {
		primaryFlowLpm: held.circuitLpm,
		primaryFlowTempC: moving.flowC,
		primaryReturnTempC: moving.returnC,
		heatingPipeTempC: moving.heatingPipeC,
		heatingPipeAboveRoomK: moving.heatingPipeC - p['room.tempC'],
		radiatorTempC: moving.radiatorC,
		circuitHeatKw: moving.circuitKw,
		lossKw: moving.lossKw,
		storedKw: whole.storedKw,
		wetJoints: 0,
		pumpRunsShare: held.pumpDriven,
		pumpHumShare: driven ? Math.sqrt(strength) : 0,
		// Torque of a small wet-rotor pump falls with the square of its speed.
		pumpSpindleShare: driven ? strength * strength : 0
	};
}

function air({ p, read: { most, last } }: Run) {
	const venturi = venturiMbar(p, most.airShare);
	return {
		fanPercent: 100 * last.fanShare,
		fanMostPercent: 100 * most.fanShare,
		fanHeardShare: last.fanShare > 0.05 ? 2 : most.fanShare > 0.05 ? 1 : 0,
		venturiMbar: venturi,
		airSwitchMbar: p['airSwitch.tubeJoined'] * venturi,
		airSwitchClosedMost: most.airSwitchClosed,
		airTubeJoined: p['airSwitch.tubeJoined'],
		flueOpenPercent: 100 * p['flue.openShare'],
		finsOpenPercent: 100 * p['exchanger.finsOpen']
	};
}

function burning({ p, read, whole }: Run) {
	const gas = burnt(p);
	const { held, whileLit, most } = read;
	const lit = held.lit > 0;
	const now = gasPressures(p, whileLit.gasShare);
	const burnerMbar = lit ? whileLit.burnerMbar : most.burnerMbar;
	const co2 = lit ? co2Percent(whileLit.lambda, gas) : 0;
	const coPpm = lit ? openBurnerCoPpm(p['burner.coBasePpm'], whileLit.lambda, co2 / gas.co2MaxPercent, p['exchanger.finsOpen']) : 0;
	return {
		burnerOnFraction: held.lit,
		burnerStarts: whole.starts,
		burnerLightings: whole.lightings,
		burnerSeen: whole.lightings === 0 ? 0 : whole.lightings === 1 && lit ? 2 : whole.starts < 2 ? 1 : 3,
		sparks: whole.sparks,
		gasInletMbar: now.inletMbar,
		gasMeterMbar: now.meterMbar,
		gasStandingMbar: gasPressures(p, 0).inletMbar,
		burnerMbar,
		burnerFullPercent: (100 * burnerMbar) / fullBurnerMbar(p),
		gasRateM3h: (whileLit.gasShare * p['burner.maxNetKw'] * 3.6) / gas.netMjPerM3,
		heatInputNetKw: held.inputNetKw,
		heatInputGrossKw: (held.inputNetKw * gas.grossMjPerM3) / gas.netMjPerM3,
		efficiencyNetPercent: held.inputNetKw > 0 ? (100 * held.heatKw) / held.inputNetKw : 0,
		gasTightnessDropMbar: 0,
		injectorOpenPercent: 100 * p['gas.injectorOpen'],
		co2Percent: co2,
		o2Percent: o2Percent(co2, gas.co2MaxPercent),
		coPpm,
		coRatio: lit ? coRatio(coPpm, co2) : Infinity,
		flueTempC: lit ? whileLit.flueC : p['room.tempC'],
		flameMicroA: lit ? whileLit.flameMicroA : most.flameMicroA,
		electrodePercent: 100 * p['flame.electrode']
	};
}

function electrics({ p, read: { moving, held, whileLit, most }, whole, powered, alive }: Run) {
	const volts = p['supply.volts'];
	const onBoard = powered ? volts : 0;
	const room = p['room.tempC'];
	const fanWinding = p['fan.turns'] > 0 ? windingOhm(p['fan.windingOhm'], room) : Infinity;
	const asked = held.lit > 0 ? whileLit.asked : most.asked;
	const modulatorV = p['modulator.joined'] > 0 ? MODULATOR_V.least + MODULATOR_V.more * asked * asked : MODULATOR_V.open;
	return {
		supplyV: volts,
		boardV: onBoard,
		displayLit: alive ? 1 : 0,
		earthOhm: EARTH_OHM,
		fuseOhm: powered ? CLOSED_OHM : Infinity,
		pumpV: terminalV(onBoard, held.pumpDriven > 0.5, LOAD_OHM),
		fanV: terminalV(onBoard, most.fanDriven > 0, fanWinding),
		fanWindingOhm: fanWinding,
		airSwitchV: terminalV(onBoard, alive && most.airSwitchClosed > 0, LOAD_OHM),
		gasValveV: terminalV(onBoard, whole.gasDriven && p['limit.closed'] > 0, LOAD_OHM),
		modulatorV: whole.gasDriven ? modulatorV : 0,
		modulatorOhm: p['modulator.joined'] > 0 ? windingOhm(p['modulator.coilOhm'], room) : Infinity,
		limitOhm: p['limit.closed'] > 0 ? CLOSED_OHM : Infinity,
		tapSensorOffOhm: sensorOhm(room, p['tapSensor.ohmFactor'], 1),
		flowSensorOffOhm: sensorOhm(room, p['flowSensor.ohmFactor'], 1),
		sensedTapC: moving.sensedTapC,
		sensedFlowC: moving.sensedFlowC,
		tapDialPercent: 100 * p['tapDial.set'],
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
	const powered = p['supply.fuse'] > 0;
	const run: Run = { p, demand, read, whole, powered, alive: powered && p['board.alive'] > 0 };
	// Spreading so many keys into a literal costs more than the run.
	return Object.assign(water(run), heating(run), air(run), Object.assign(burning(run), electrics(run)));
}
