/**
 * A condensing combination boiler with a plate heat exchanger, premix fan and ratio gas valve, a motorised diverter resting in the
 * hot-water position, a flow turbine, no sensor on the hot-water outlet, two primary sensors and two user's dials.
 */
import type { ApplianceModel } from '#shared/appliance/model.ts';
import { traceOf, type Signal } from '#shared/appliance/running/trace.ts';
import { lockouts } from './control.ts';
import { lump } from './plant.ts';
import { parameters } from './parameters.ts';
import { quantities } from './quantities.ts';
import { RUN_S, settle } from './settle.ts';
import { simulate, type Moment } from './simulate.ts';

const signals: readonly Signal<Moment>[] = [
	{ key: 'fanPercent', unit: '%', says: 'Fan speed, share of full', of: (m) => 100 * m.fanShare },
	{ key: 'primaryFlowTempC', unit: 'degC', says: 'Flow pipe', of: (m) => m.plant.state[lump.exchanger] },
	{ key: 'primaryReturnTempC', unit: 'degC', says: 'Return pipe', of: (m) => m.plant.state[lump.return1] },
	{ key: 'sensedFlowC', unit: 'degC', says: 'Flow as the board has it', of: (m) => m.sensedFlowC },
	{ key: 'tapTempC', unit: 'degC', says: 'Appliance hot-water outlet', of: (m) => m.plant.state[lump.plateTap] },
	{ key: 'heatingPipeTempC', unit: 'degC', says: 'Heating flow pipe', of: (m) => m.plant.state[lump.heatingPipe] },
	{ key: 'turbineTurns', unit: '1', says: 'Turbine turning, its indicator lit', of: (m) => (m.tapSensedLpm > 0 ? 1 : 0) },
	{ key: 'sensedTapFlowLpm', unit: 'l/min', says: 'Flow as the turbine senses it', of: (m) => m.tapSensedLpm },
	{ key: 'diverterAtShare', unit: '1', says: 'Diverter: 0 hot water, 1 heating', of: (m) => m.diverterAt },
	{ key: 'pumpOn', unit: '1', says: 'Pump driven', of: (m) => (m.board.pump ? 1 : 0) },
	{ key: 'gasValveOn', unit: '1', says: 'Gas valve driven', of: (m) => (m.board.gas ? 1 : 0) },
	{ key: 'sparking', unit: '1', says: 'Igniter sparking', of: (m) => (m.board.spark ? 1 : 0) },
	{ key: 'burnerOn', unit: '1', says: 'Burner lit', of: (m) => (m.burning ? 1 : 0) },
	{ key: 'heatInputNetKw', unit: 'kW', says: 'Net heat input', of: (m) => m.inputNetKw },
	{ key: 'lockout', unit: '', says: 'Number of the shutdown shown', of: (m) => lockouts.indexOf(m.board.lockout) }
];

/** Integration step of settled runs [s]; halving it is tried in tests/core/appliance. */
const STEP_S = 0.5;

export const combiPlatePrimary: ApplianceModel = {
	id: 'combi-plate-primary',
	parameters,
	quantities,
	signals,
	runS: RUN_S,
	lockouts,
	settle: (machine, demand, stepS = STEP_S) => settle(machine, demand, stepS),
	trace: (machine, demand, seconds, stepS = STEP_S) => traceOf(signals, (...given) => simulate(machine, demand, ...given), seconds, stepS)
};
