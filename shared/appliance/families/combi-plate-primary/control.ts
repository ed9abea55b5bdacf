/**
 * The control board of this family: firing sequence, modulation and limits, as an explicit state machine that looks at its inputs
 * every half second, as such boards do.
 *
 * It has no sensor on the hot-water outlet: in hot-water demand it holds the flow temperature that the user's dial asks for. Figures
 * for times, gains and limits are of the order met in the trade (common practice, no source).
 */
import type { Parameters } from '#shared/appliance/model.ts';
import { TICK_S } from '#shared/appliance/running/tick.ts';

export const lockouts = [
	'none',
	'no-flame',
	'flame-lost',
	'overheat',
	'no-circulation',
	'sensors-disagree',
	'sensor-open',
	'fan-not-proved',
	'low-pressure'
] as const;
export type Lockout = (typeof lockouts)[number];

export type Stage = 'resting' | 'starting' | 'purging' | 'lighting' | 'steadying' | 'firing' | 'waiting' | 'overrunning' | 'locked';

const STARTING_S = 2;
const PURGE_S = 3;
const FAN_PROVED_WITHIN_S = 15;
const SAFETY_TIME_S = 5;
const FLAME_SETTLES_S = 1;
const STEADYING_S = 4;
const OVERRUN_S = 60;
const TRIES = 3;
const TRIPS = 2;
const TRIP_WAIT_S = 20;
const HEATING_ANTICYCLE_S = 120;

const IGNITION_SHARE = 0.5;
const GAIN_PER_K = 0.03;
const GAIN_PER_K_S = 0.0015;
const DAMPING_S_PER_K = 0.12;
const HELD_AT_START = 0.5;
const BAND_ABOVE_K = 8;
const BAND_BELOW_K = 3;

/** Above this difference between the two sensors the burner is wound down, to its least rate at the second; at the third it trips. */
const DIFFERENCE_K = { windsFrom: 38, leastAt: 50, tripsAt: 56 };
/** Sensed flow temperature rising faster than this over four seconds: no water is taking the heat away. */
const RISE_K_PER_S = 2.4;
const RISE_TICKS = 8;
const HIGHEST_FLOW_C = 90;
/** With the burner out and the pump driven, flow and return come together; where they have not by then, no water moves. */
const COMES_TOGETHER = { withinS: 40, toK: 20 };
/** A return that reads this far above the flow, for ten seconds, is not believed. */
const DISAGREE_K = 12;
const DISAGREE_S = 10;

export interface Inputs {
	readonly tapSensedLpm: number;
	readonly heatingCalled: boolean;
	readonly flowC: number;
	readonly returnC: number;
	readonly sensorsJoined: boolean;
	readonly limitClosed: boolean;
	readonly fanShare: number;
	readonly flameMicroA: number;
}

export interface Board {
	stage: Stage;
	/** Seconds in the stage. */
	since: number;
	serving: 'nothing' | 'tap' | 'heating';
	tries: number;
	trips: number;
	losses: number;
	starts: number;
	held: number;
	fanCommand: number;
	pump: boolean;
	gas: boolean;
	spark: boolean;
	/** Live on the diverter motor's hot-water or heating terminal. */
	tapLive: boolean;
	heatingLive: boolean;
	lockout: Lockout;
	disagreeing: number;
	readonly rise: Float64Array;
	riseAt: number;
	/** How long the present wait lasts [s], and whether the flow must cool before it ends. */
	waits: number;
	untilCooler: boolean;
}

/** What of the machine the board's program depends on. */
export interface Settings {
	readonly alive: boolean;
	readonly startLpm: number;
	readonly stopLpm: number;
	readonly tapFlowC: number;
	readonly heatingFlowC: number;
	readonly leastShare: number;
	readonly leastMicroA: number;
	readonly enoughPressure: boolean;
	readonly tapOutput: boolean;
	readonly heatingOutput: boolean;
}

/** Position of the hot-water dial's wiper: where the user set it, or where a broken spindle left it. */
export function tapDialPosition(p: Parameters): number {
	return p['tapDial.spindle'] > 0 ? p['tapDial.set'] : p['tapDial.brokenAt'];
}

export function settings(p: Parameters): Settings {
	return {
		alive: p['board.alive'] > 0 && p['supply.fuse'] > 0,
		startLpm: p['turbine.startLpm'],
		stopLpm: p['turbine.stopLpm'],
		tapFlowC: 40 + 35 * tapDialPosition(p),
		heatingFlowC: 35 + 45 * p['heatingDial.set'],
		leastShare: p['burner.leastShare'],
		leastMicroA: p['flame.leastMicroA'],
		enoughPressure: p['system.pressureBar'] >= p['system.leastBar'],
		tapOutput: p['board.tapOutput'] > 0,
		heatingOutput: p['board.heatingOutput'] > 0
	};
}

export function restingBoard(): Board {
	return {
		stage: 'resting',
		since: 0,
		serving: 'nothing',
		tries: 0,
		trips: 0,
		losses: 0,
		starts: 0,
		held: 0,
		fanCommand: 0,
		pump: false,
		gas: false,
		spark: false,
		tapLive: false,
		heatingLive: false,
		lockout: 'none',
		disagreeing: 0,
		rise: new Float64Array(RISE_TICKS),
		riseAt: 0,
		waits: 0,
		untilCooler: false
	};
}

function enter(board: Board, stage: Stage): void {
	board.stage = stage;
	board.since = 0;
}

function lock(board: Board, lockout: Lockout): void {
	board.lockout = lockout;
	enter(board, 'locked');
}

/** A trip shuts the burner down and waits; the second in one run locks out. */
function trip(board: Board, lockout: Lockout): void {
	board.trips += 1;
	if (board.trips >= TRIPS) return lock(board, lockout);
	board.waits = TRIP_WAIT_S;
	board.untilCooler = false;
	enter(board, 'waiting');
}

/** The next light-up is a new start, not a retry of the last. */
function startAfresh(board: Board): void {
	board.tries = 0;
	enter(board, 'purging');
}

/** What is asked for, as the board sees it: hot water before heating. */
function serve(board: Board, set: Settings, input: Inputs): void {
	const tapOn = input.tapSensedLpm >= (board.serving === 'tap' ? set.stopLpm : set.startLpm);
	const serving = tapOn ? 'tap' : input.heatingCalled ? 'heating' : 'nothing';
	if (serving === board.serving || board.stage === 'locked') return;
	board.serving = serving;
	if (serving === 'nothing') enter(board, 'overrunning');
	else if (board.stage === 'resting' || board.stage === 'overrunning') enter(board, 'starting');
}

/** Rise of the sensed flow temperature over the last four seconds [K/s]. */
function risePerS(board: Board, input: Inputs): number {
	return (input.flowC - board.rise[board.riseAt]) / (RISE_TICKS * TICK_S);
}

/** Limits that hold whatever the stage. Returns true when one acted. */
function limitsAct(board: Board, set: Settings, input: Inputs): boolean {
	if (!input.sensorsJoined) return (lock(board, 'sensor-open'), true);
	if (!input.limitClosed) return (lock(board, 'overheat'), true);
	if (!set.enoughPressure) return (lock(board, 'low-pressure'), true);
	board.disagreeing = input.returnC > input.flowC + DISAGREE_K ? board.disagreeing + TICK_S : 0;
	if (board.disagreeing >= DISAGREE_S) return (lock(board, 'sensors-disagree'), true);
	if (!board.gas) return false;
	if (risePerS(board, input) > RISE_K_PER_S) return (trip(board, 'no-circulation'), true);
	if (input.flowC - input.returnC > DIFFERENCE_K.tripsAt) return (trip(board, 'no-circulation'), true);
	if (input.flowC > HIGHEST_FLOW_C) return (trip(board, 'overheat'), true);
	return false;
}

/** PI on the sensed flow temperature, damped while it rises, held below what the difference between the sensors allows. */
function modulate(board: Board, set: Settings, input: Inputs): void {
	const target = board.serving === 'tap' ? set.tapFlowC : set.heatingFlowC;
	const error = target - input.flowC;
	const wanted = GAIN_PER_K * error + board.held - DAMPING_S_PER_K * Math.max(0, risePerS(board, input));
	const difference = input.flowC - input.returnC;
	const allowed = (DIFFERENCE_K.leastAt - difference) / (DIFFERENCE_K.leastAt - DIFFERENCE_K.windsFrom);
	const most = Math.max(set.leastShare, Math.min(1, allowed));
	if ((wanted < most || error < 0) && (wanted > set.leastShare || error > 0)) board.held += GAIN_PER_K_S * error * TICK_S;
	board.held = Math.max(0, Math.min(1, board.held));
	board.fanCommand = Math.max(set.leastShare, Math.min(most, wanted));
}

function shutDownUntilCooler(board: Board): void {
	board.waits = board.serving === 'heating' ? HEATING_ANTICYCLE_S : 0;
	board.untilCooler = true;
	enter(board, 'waiting');
}

function advance(board: Board, set: Settings, input: Inputs): void {
	const target = board.serving === 'tap' ? set.tapFlowC : set.heatingFlowC;
	switch (board.stage) {
		case 'starting':
			if (board.since >= STARTING_S) startAfresh(board);
			break;
		case 'purging':
			board.fanCommand = IGNITION_SHARE;
			if (input.fanShare < 0.8 * IGNITION_SHARE) {
				if (board.since >= FAN_PROVED_WITHIN_S) lock(board, 'fan-not-proved');
			} else if (board.since >= PURGE_S) enter(board, 'lighting');
			break;
		case 'lighting':
			board.fanCommand = IGNITION_SHARE;
			if (board.since >= FLAME_SETTLES_S && input.flameMicroA >= set.leastMicroA) {
				board.starts += 1;
				board.held = HELD_AT_START;
				enter(board, 'steadying');
			} else if (board.since >= SAFETY_TIME_S) {
				board.tries += 1;
				if (board.tries >= TRIES) lock(board, 'no-flame');
				else enter(board, 'purging');
			}
			break;
		case 'steadying':
		case 'firing':
			if (input.flameMicroA < set.leastMicroA) {
				board.losses += 1;
				if (board.losses >= TRIES) lock(board, 'flame-lost');
				else startAfresh(board);
			} else if (board.stage === 'steadying') {
				board.fanCommand = IGNITION_SHARE;
				if (board.since >= STEADYING_S) enter(board, 'firing');
			} else if (input.flowC > target + BAND_ABOVE_K) shutDownUntilCooler(board);
			else modulate(board, set, input);
			break;
		case 'waiting':
			if (board.untilCooler && board.since >= COMES_TOGETHER.withinS && input.flowC - input.returnC > COMES_TOGETHER.toK) {
				trip(board, 'no-circulation');
			} else if (board.since >= board.waits && (!board.untilCooler || input.flowC < target - BAND_BELOW_K)) startAfresh(board);
			break;
		case 'overrunning':
			if (board.since >= OVERRUN_S) enter(board, 'resting');
			break;
	}
}

/** One look of the board at its inputs, every `TICK_S`. Changes the board in place, for speed. */
export function tick(board: Board, set: Settings, input: Inputs): void {
	if (!set.alive) return;
	board.since += TICK_S;
	serve(board, set, input);
	const called = board.serving !== 'nothing';
	if (called && board.stage !== 'locked' && !limitsAct(board, set, input)) advance(board, set, input);
	else if (!called) advance(board, set, input);

	board.rise[board.riseAt] = input.flowC;
	board.riseAt = (board.riseAt + 1) % RISE_TICKS;
	const burning = board.stage === 'lighting' || board.stage === 'steadying' || board.stage === 'firing';
	board.gas = burning;
	board.spark = board.stage === 'lighting';
	if (!burning && board.stage !== 'purging') board.fanCommand = 0;
	board.pump = set.enoughPressure && board.stage !== 'resting' && board.stage !== 'locked';
	board.tapLive = set.tapOutput && board.serving === 'tap' && board.stage !== 'locked';
	board.heatingLive = set.heatingOutput && board.serving === 'heating' && board.stage !== 'locked';
}
