/**
 * A combination boiler whose tap water runs through a coil inside the main exchanger, with the heating water round it: a flow switch, an
 * open burner modulated by burner pressure, a fan of one speed proved by an air-pressure switch, a hot-water sensor and a flow sensor. It
 * does not condense, has no diverter, and rests its pump while a tap runs.
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
	{ key: 'flowSwitchClosed', unit: '1', says: 'Flow switch closed', of: (m) => (m.flowSwitchClosed ? 1 : 0) },
	{ key: 'fanPercent', unit: '%', says: 'Fan speed, share of full', of: (m) => 100 * m.fanShare },
	{ key: 'airSwitchClosed', unit: '1', says: 'Air-pressure switch closed', of: (m) => (m.airSwitchClosed ? 1 : 0) },
	{ key: 'sparking', unit: '1', says: 'Igniter sparking', of: (m) => (m.board.spark ? 1 : 0) },
	{ key: 'gasValveOn', unit: '1', says: 'Gas valve driven', of: (m) => (m.board.gas ? 1 : 0) },
	{ key: 'burnerOn', unit: '1', says: 'Burner lit', of: (m) => (m.burning ? 1 : 0) },
	{ key: 'burnerMbar', unit: 'mbar', says: 'Burner pressure', of: (m) => m.burnerMbar },
	{ key: 'pumpOn', unit: '1', says: 'Pump driven', of: (m) => (m.board.pump ? 1 : 0) },
	{ key: 'primaryFlowTempC', unit: 'degC', says: 'Flow pipe', of: (m) => m.plant.state[lump.exchanger] },
	{ key: 'primaryReturnTempC', unit: 'degC', says: 'Return pipe', of: (m) => m.plant.state[lump.return3] },
	{ key: 'tapTempC', unit: 'degC', says: 'Appliance hot-water outlet', of: (m) => m.plant.state[lump.coil] },
	{ key: 'heatingPipeTempC', unit: 'degC', says: 'Heating flow pipe', of: (m) => m.plant.state[lump.heatingPipe] },
	{ key: 'heatInputNetKw', unit: 'kW', says: 'Net heat input', of: (m) => m.inputNetKw },
	{ key: 'lockout', unit: '', says: 'Number of the shutdown shown', of: (m) => lockouts.indexOf(m.board.lockout) }
];

/** Integration step of settled runs [s]; halving it is tried in tests/core/appliance. */
const STEP_S = 0.5;

export const combiTapCoil: ApplianceModel = {
	id: 'combi-tap-coil',
	parameters,
	quantities,
	signals,
	runS: RUN_S,
	lockouts,
	settle: (machine, demand, stepS = STEP_S) => settle(machine, demand, stepS),
	trace: (machine, demand, seconds, stepS = STEP_S) => traceOf(signals, (...given) => simulate(machine, demand, ...given), seconds, stepS)
};
