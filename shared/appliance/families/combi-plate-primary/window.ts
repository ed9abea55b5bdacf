/** A run from rest, with the means of its last minute and what the whole of it showed. */
import type { Demand, Parameters } from '#shared/appliance/model.ts';
import { TICK_S } from './control.ts';
import { lump } from './plant.ts';
import { simulate, type Moment } from './simulate.ts';

/** How long a run lasts before it is read, and the part at its end that is read [s]. */
export const RUN_S: Readonly<Record<Demand, number>> = { none: 2, tap: 240, 'part-tap': 240, both: 240, heating: 900 };
const WINDOW_S = 60;
const LATE_S = 120;

/** Averaged over the window. */
const always = {
	tapC: (m: Moment) => m.plant.state[lump.plateTap],
	flowC: (m: Moment) => m.plant.state[lump.exchanger],
	returnC: (m: Moment) => m.plant.state[lump.return1],
	heatingPipeC: (m: Moment) => m.plant.state[lump.heatingPipe],
	radiatorC: (m: Moment) => m.plant.state[lump.radiators],
	sensedFlowC: (m: Moment) => m.sensedFlowC,
	sensedReturnC: (m: Moment) => m.sensedReturnC,
	tapKw: (m: Moment) => m.plant.tapHeatKw(),
	circuitKw: (m: Moment) => m.plant.circuitHeatKw(),
	lossKw: (m: Moment) => m.plant.lossKw(),
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

export type Means = { [name in keyof typeof always]: number } & { whileLit: { [name in keyof typeof lit]: number } };

/** What the whole run showed. */
export interface Whole {
	/** Share of the run for which the turbine turned. */
	turning: number;
	fanMost: number;
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

const names = Object.keys(always) as (keyof typeof always)[];
const litNames = Object.keys(lit) as (keyof typeof lit)[];
const picks = names.map((name) => always[name]);
const litPicks = litNames.map((name) => lit[name]);

/** Runs the machine from rest and reads the end of the run. @param stepS integration step [s] */
export function runAndRead(p: Parameters, demand: Demand, stepS: number): { means: Means; whole: Whole } {
	const runS = RUN_S[demand];
	const from = Math.max(0, runS - WINDOW_S);
	const sums = new Float64Array(names.length);
	const litSums = new Float64Array(litNames.length);
	let ticks = 0;
	let litTicks = 0;
	let turned = 0;
	let heldFromKj = 0;
	let sparking = false;
	const whole: Whole = {
		turning: 0,
		fanMost: 0,
		fanLate: 0,
		fanLeastLate: Infinity,
		gasDriven: false,
		sparks: 0,
		starts: 0,
		lockout: 'none',
		storedKw: 0
	};

	simulate(p, demand, runS, stepS, (m) => {
		if (m.seconds === from) heldFromKj = m.plant.heldKj();
		if (m.seconds === 0) return;
		if (m.tapSensedLpm > 0) turned += 1;
		if (m.fanShare > whole.fanMost) whole.fanMost = m.fanShare;
		if (m.seconds > runS - LATE_S && m.fanShare < whole.fanLeastLate) whole.fanLeastLate = m.fanShare;
		if (m.board.gas) whole.gasDriven = true;
		if (m.board.spark && !sparking) whole.sparks += 1;
		sparking = m.board.spark;
		if (m.seconds <= from) return;

		ticks += 1;
		for (let i = 0; i < picks.length; i += 1) sums[i] += picks[i](m);
		if (m.burning) {
			litTicks += 1;
			for (let i = 0; i < litPicks.length; i += 1) litSums[i] += litPicks[i](m);
		}
		if (m.seconds < runS) return;
		whole.fanLate = m.fanShare;
		whole.starts = m.board.starts;
		whole.lockout = m.board.lockout;
		whole.storedKw = (m.plant.heldKj() - heldFromKj) / (runS - from);
		whole.turning = (turned * TICK_S) / runS;
	});

	const means = Object.fromEntries(names.map((name, i) => [name, sums[i] / ticks]));
	const whileLit = Object.fromEntries(litNames.map((name, i) => [name, litTicks > 0 ? litSums[i] / litTicks : 0]));
	return { means: { ...means, whileLit } as Means, whole };
}
