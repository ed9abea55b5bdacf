/** What is read of a run of this family, and how. */
import { lump } from './plant.ts';
import type { Moment } from './simulate.ts';

export const wanted = {
	moving: {
		tapC: (m: Moment) => m.plant.state[lump.plateTap],
		flowC: (m: Moment) => m.plant.state[lump.exchanger],
		returnC: (m: Moment) => m.plant.state[lump.return1],
		heatingPipeC: (m: Moment) => m.plant.state[lump.heatingPipe],
		radiatorC: (m: Moment) => m.plant.state[lump.radiators],
		sensedFlowC: (m: Moment) => m.sensedFlowC,
		sensedReturnC: (m: Moment) => m.sensedReturnC,
		tapKw: (m: Moment) => m.plant.tapHeatKw(),
		circuitKw: (m: Moment) => m.plant.circuitHeatKw(),
		lossKw: (m: Moment) => m.plant.lossKw()
	},
	held: {
		heatKw: (m: Moment) => m.heatKw,
		inputNetKw: (m: Moment) => m.inputNetKw,
		primaryLpm: (m: Moment) => m.flows.totalLpm,
		sensedLpm: (m: Moment) => m.tapSensedLpm,
		fanShare: (m: Moment) => m.fanShare,
		diverterAt: (m: Moment) => m.diverterAt,
		lit: (m: Moment) => (m.burning ? 1 : 0),
		pumpDriven: (m: Moment) => (m.board.pump ? 1 : 0),
		fanDriven: (m: Moment) => (m.board.fanCommand > 0 ? 1 : 0),
		tapLive: (m: Moment) => (m.board.tapLive ? 1 : 0),
		heatingLive: (m: Moment) => (m.board.heatingLive ? 1 : 0)
	},
	whileLit: {
		gasShare: (m: Moment) => m.gasShare,
		lambda: (m: Moment) => m.lambda,
		flameMicroA: (m: Moment) => m.flameMicroA,
		flueC: (m: Moment) => m.flueTempC
	},
	throughout: { turning: (m: Moment) => (m.tapSensedLpm > 0 ? 1 : 0) },
	most: { fanShare: (m: Moment) => m.fanShare, flameMicroA: (m: Moment) => m.flameMicroA },
	leastLate: { fanShare: (m: Moment) => m.fanShare },
	last: { fanShare: (m: Moment) => m.fanShare }
} as const;
