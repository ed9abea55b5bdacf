/** What is read of a run of this family, and how. */
import { lump } from './plant.ts';
import type { Moment } from './simulate.ts';

export const wanted = {
	moving: {
		coilC: (m: Moment) => m.plant.state[lump.coil],
		flowC: (m: Moment) => m.plant.state[lump.exchanger],
		returnC: (m: Moment) => m.plant.state[lump.return3],
		heatingPipeC: (m: Moment) => m.plant.state[lump.heatingPipe],
		radiatorC: (m: Moment) => m.plant.state[lump.radiators],
		sensedFlowC: (m: Moment) => m.sensedFlowC,
		sensedTapC: (m: Moment) => m.sensedTapC,
		tapKw: (m: Moment) => m.plant.tapHeatKw(),
		circuitKw: (m: Moment) => m.plant.circuitHeatKw(),
		lossKw: (m: Moment) => m.plant.lossKw()
	},
	held: {
		heatKw: (m: Moment) => m.heatKw,
		inputNetKw: (m: Moment) => m.inputNetKw,
		circuitLpm: (m: Moment) => m.circuitLpm,
		lit: (m: Moment) => (m.burning ? 1 : 0),
		pumpDriven: (m: Moment) => (m.board.pump ? 1 : 0)
	},
	whileLit: {
		asked: (m: Moment) => m.board.asked,
		burnerMbar: (m: Moment) => m.burnerMbar,
		gasShare: (m: Moment) => m.gasShare,
		lambda: (m: Moment) => m.lambda,
		flameMicroA: (m: Moment) => m.flameMicroA,
		flueC: (m: Moment) => m.flueTempC
	},
	throughout: { rodIn: (m: Moment) => (m.flowSwitchClosed ? 1 : 0) },
	most: {
		asked: (m: Moment) => m.board.asked,
		burnerMbar: (m: Moment) => m.burnerMbar,
		flameMicroA: (m: Moment) => m.flameMicroA,
		fanShare: (m: Moment) => m.fanShare,
		airShare: (m: Moment) => m.airShare,
		fanDriven: (m: Moment) => (m.board.fan ? 1 : 0),
		airSwitchClosed: (m: Moment) => (m.airSwitchClosed ? 1 : 0)
	},
	leastLate: {},
	last: { fanShare: (m: Moment) => m.fanShare }
} as const;
