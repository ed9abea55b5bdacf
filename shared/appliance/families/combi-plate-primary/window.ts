/** A run from rest, with the means of its last minute and what the whole of it showed. */
import type { Demand, Parameters } from '#shared/appliance/model.ts';
import { TICK_S } from './control.ts';
import { lump } from './plant.ts';
import { simulate, type Moment } from './simulate.ts';

/** How long a run lasts before it is read, and the part at its end that is read [s]. */
export const RUN_S: Readonly<Record<Demand, number>> = { none: 2, tap: 240, 'part-tap': 240, both: 240, heating: 900 };
const WINDOW_S = 60;
const LATE_S = 120;

/** Averaged over the window by trapezia: they move within a tick. */
const moving = {
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
} as const;

/** Averaged over the window as they are: they hold for a tick. */
const held = {
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
} as const;

/** Averaged over the part of the window in which the burner was lit; 0 where it was not. */
const lit = {
	gasShare: (m: Moment) => m.gasShare,
	lambda: (m: Moment) => m.lambda,
	flameMicroA: (m: Moment) => m.flameMicroA,
	flueC: (m: Moment) => m.flueTempC
} as const;

export type Means = { [name in keyof typeof moving | keyof typeof held]: number } & { whileLit: { [name in keyof typeof lit]: number } };

/** What the whole run showed. */
export interface Whole {
	/** Share of the run for which the turbine turned. */
	turning: number;
	fanMost: number;
	/** Highest flame current of the run [uA]. */
	flameMost: number;
	/** Times that a flame stood, proved or not. */
	lightings: number;
	fanLate: number;
	fanLeastLate: number;
	/** Whether the board ever drove the gas valve. */
	gasDriven: boolean;
	sparks: number;
	starts: number;
	lockout: string;
	/** Heat going into water and metal over the window [kW]. */
	storedKw: number;
}

/** Sums of a group of picks, each moment with its weight. */
function adder<Group extends Readonly<Record<string, (m: Moment) => number>>>(group: Group) {
	const names = Object.keys(group) as (keyof Group)[];
	const picks = names.map((name) => group[name]);
	const sums = new Float64Array(names.length);
	let weight = 0;
	return {
		add(m: Moment, share: number): void {
			weight += share;
			for (let i = 0; i < picks.length; i += 1) sums[i] += share * picks[i](m);
		},
		means: (): { [name in keyof Group]: number } =>
			Object.fromEntries(names.map((name, i) => [name, weight > 0 ? sums[i] / weight : 0])) as { [name in keyof Group]: number }
	};
}

/** Runs the machine from rest and reads the end of the run. @param stepS integration step [s] */
export function runAndRead(p: Parameters, demand: Demand, stepS: number): { means: Means; whole: Whole } {
	const runS = RUN_S[demand];
	const from = Math.max(0, runS - WINDOW_S);
	const movingSums = adder(moving);
	const heldSums = adder(held);
	const litSums = adder(lit);
	let turned = 0;
	let heldFromKj = 0;
	let sparking = false;
	let burning = false;
	const whole: Whole = {
		turning: 0,
		fanMost: 0,
		flameMost: 0,
		lightings: 0,
		fanLate: 0,
		fanLeastLate: Infinity,
		gasDriven: false,
		sparks: 0,
		starts: 0,
		lockout: 'none',
		storedKw: 0
	};

	simulate(p, demand, runS, stepS, (m) => {
		if (m.seconds === from) {
			heldFromKj = m.plant.heldKj();
			movingSums.add(m, 0.5);
		}
		if (m.seconds === 0) return;
		if (m.tapSensedLpm > 0) turned += 1;
		if (m.fanShare > whole.fanMost) whole.fanMost = m.fanShare;
		if (m.seconds > runS - LATE_S && m.fanShare < whole.fanLeastLate) whole.fanLeastLate = m.fanShare;
		if (m.board.gas) whole.gasDriven = true;
		if (m.board.spark && !sparking) whole.sparks += 1;
		sparking = m.board.spark;
		if (m.burning && !burning) whole.lightings += 1;
		burning = m.burning;
		if (m.flameMicroA > whole.flameMost) whole.flameMost = m.flameMicroA;
		if (m.seconds <= from) return;

		movingSums.add(m, m.seconds < runS ? 1 : 0.5);
		heldSums.add(m, 1);
		if (m.burning) litSums.add(m, 1);
		if (m.seconds < runS) return;
		whole.fanLate = m.fanShare;
		whole.starts = m.board.starts;
		whole.lockout = m.board.lockout;
		whole.storedKw = (m.plant.heldKj() - heldFromKj) / (runS - from);
		whole.turning = (turned * TICK_S) / runS;
	});

	return { means: { ...movingSums.means(), ...heldSums.means(), whileLit: litSums.means() }, whole };
}
