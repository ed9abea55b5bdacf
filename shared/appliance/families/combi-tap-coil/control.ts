/**
 * The control board of this family: firing sequence, modulation and limits, as an explicit state machine that looks at its inputs every
 * half second.
 *
 * A closed flow switch calls for hot water, and then the pump stays off. The fan has one speed; its air is proved by a pressure switch,
 * which must be found open before the fan starts. In hot-water demand the burner follows the hot-water sensor, in heating the flow sensor.
 * Figures for times, gains and limits are of the order met in the trade (common practice, no source).
 */
import type { Parameters } from '#shared/appliance/model.ts';
import { TICK_S } from '#shared/appliance/running/tick.ts';

export const lockouts = ['none', 'no-flame', 'flame-lost', 'overheat', 'air-not-proved', 'air-switch-closed'] as const;
export type Lockout = (typeof lockouts)[number];

type Stage = 'resting' | 'checking-air' | 'proving-air' | 'purging' | 'lighting' | 'steadying' | 'firing' | 'waiting' | 'locked';

const AIR_FOUND_OPEN_S = 1;
const AIR_FOUND_CLOSED_S = 8;
const AIR_PROVED_WITHIN_S = 20;
const PURGE_S = 2;
const SAFETY_TIME_S = 8;
const FLAME_SETTLES_S = 1;
const STEADYING_S = 3;
const TRIES = 3;
const HEATING_ANTICYCLE_S = 90;

const IGNITION_SHARE = 0.6;
const GAIN_PER_K = 0.03;
const GAIN_PER_K_S = 0.0008;
const HELD_AT_START = 0.6;
/** Hotter than asked for by this, the burner goes out; by this much cooler, it may light again. */
const BAND_K = { above: 7, below: 4 };
/** In hot-water demand the heating water round the coil winds the burner down from the first of these, to its least rate at the second. */
const ROUND_COIL_C = { windsFrom: 83, leastAt: 91 };
const HIGHEST_FLOW_C = 94;
const COOL_AGAIN_C = 80;

export interface Inputs {
	flowSwitchClosed: boolean;
	heatingCalled: boolean;
	airSwitchClosed: boolean;
	tapC: number;
	flowC: number;
	limitClosed: boolean;
	flameMicroA: number;
}

export interface Board {
	stage: Stage;
	/** Seconds in the stage. */
	since: number;
	serving: 'nothing' | 'tap' | 'heating';
	/** Lightings that failed, flames lost and air lost, since the demand began. */
	tries: number;
	losses: number;
	airLosses: number;
	starts: number;
	held: number;
	/** Share of full rate asked of the modulator. */
	asked: number;
	fan: boolean;
	pump: boolean;
	gas: boolean;
	spark: boolean;
	lockout: Lockout;
}

/** What of the machine the board's program depends on. */
export interface Settings {
	readonly alive: boolean;
	readonly tapC: number;
	readonly heatingFlowC: number;
	readonly leastShare: number;
	readonly leastMicroA: number;
	readonly fanOutput: boolean;
	readonly pumpStuckOn: boolean;
}

export function settings(p: Parameters): Settings {
	return {
		alive: p['board.alive'] > 0 && p['supply.fuse'] > 0,
		tapC: 34 + 24 * p['tapDial.set'],
		heatingFlowC: 40 + 42 * p['heatingDial.set'],
		leastShare: p['burner.leastShare'],
		leastMicroA: p['flame.leastMicroA'],
		fanOutput: p['board.fanOutput'] > 0,
		pumpStuckOn: p['board.pumpStuckOn'] > 0
	};
}

export function restingBoard(): Board {
	return {
		stage: 'resting',
		since: 0,
		serving: 'nothing',
		tries: 0,
		losses: 0,
		airLosses: 0,
		starts: 0,
		held: 0,
		asked: 0,
		fan: false,
		pump: false,
		gas: false,
		spark: false,
		lockout: 'none'
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

/** What is asked for, as the board sees it: hot water before heating. */
function serve(board: Board, input: Inputs): void {
	const serving = input.flowSwitchClosed ? 'tap' : input.heatingCalled ? 'heating' : 'nothing';
	if (serving === board.serving || board.stage === 'locked') return;
	board.serving = serving;
	if (serving === 'nothing') enter(board, 'resting');
	else if (board.stage === 'resting' || board.stage === 'waiting') enter(board, 'checking-air');
}

function tooHot(board: Board, set: Settings, input: Inputs): boolean {
	if (input.flowC > HIGHEST_FLOW_C) return true;
	return board.serving === 'tap' ? input.tapC > set.tapC + BAND_K.above : input.flowC > set.heatingFlowC + BAND_K.above;
}

function coolAgain(board: Board, set: Settings, input: Inputs): boolean {
	if (board.serving === 'heating') return board.since >= HEATING_ANTICYCLE_S && input.flowC < set.heatingFlowC - BAND_K.below;
	return input.tapC < set.tapC - BAND_K.below && input.flowC < COOL_AGAIN_C;
}

/** PI on the sensor that governs the demand, held below what the heating water round the coil allows. */
function modulate(board: Board, set: Settings, input: Inputs): void {
	const error = board.serving === 'tap' ? set.tapC - input.tapC : set.heatingFlowC - input.flowC;
	const allowed = board.serving === 'tap' ? (ROUND_COIL_C.leastAt - input.flowC) / (ROUND_COIL_C.leastAt - ROUND_COIL_C.windsFrom) : 1;
	const most = Math.max(set.leastShare, Math.min(1, allowed));
	const wanted = GAIN_PER_K * error + board.held;
	if ((wanted < most || error < 0) && (wanted > set.leastShare || error > 0)) board.held += GAIN_PER_K_S * error * TICK_S;
	board.held = Math.max(0, Math.min(1, board.held));
	board.asked = Math.max(set.leastShare, Math.min(most, wanted));
}

function airLost(board: Board): void {
	board.airLosses += 1;
	if (board.airLosses >= TRIES) lock(board, 'air-not-proved');
	else enter(board, 'proving-air');
}

function flameLost(board: Board): void {
	board.losses += 1;
	board.tries = 0;
	if (board.losses >= TRIES) lock(board, 'flame-lost');
	else enter(board, 'purging');
}

function light(board: Board, set: Settings, input: Inputs): void {
	board.asked = IGNITION_SHARE;
	if (board.since >= FLAME_SETTLES_S && input.flameMicroA >= set.leastMicroA) {
		board.starts += 1;
		board.held = HELD_AT_START;
		enter(board, 'steadying');
	} else if (board.since >= SAFETY_TIME_S) {
		board.tries += 1;
		if (board.tries >= TRIES) lock(board, 'no-flame');
		else enter(board, 'purging');
	}
}

function burn(board: Board, set: Settings, input: Inputs): void {
	if (!input.airSwitchClosed) airLost(board);
	else if (input.flameMicroA < set.leastMicroA) flameLost(board);
	else if (board.stage === 'steadying') {
		if (board.since >= STEADYING_S) enter(board, 'firing');
	} else if (tooHot(board, set, input)) enter(board, 'waiting');
	else modulate(board, set, input);
}

function advance(board: Board, set: Settings, input: Inputs): void {
	switch (board.stage) {
		case 'checking-air':
			if (!input.airSwitchClosed && board.since >= AIR_FOUND_OPEN_S) enter(board, 'proving-air');
			else if (board.since >= AIR_FOUND_CLOSED_S) lock(board, 'air-switch-closed');
			break;
		case 'proving-air':
			if (input.airSwitchClosed) enter(board, 'purging');
			else if (board.since >= AIR_PROVED_WITHIN_S) lock(board, 'air-not-proved');
			break;
		case 'purging':
			if (!input.airSwitchClosed) airLost(board);
			else if (board.since >= PURGE_S) enter(board, 'lighting');
			break;
		case 'lighting':
			light(board, set, input);
			break;
		case 'steadying':
		case 'firing':
			burn(board, set, input);
			break;
		case 'waiting':
			if (coolAgain(board, set, input)) enter(board, 'checking-air');
			break;
	}
}

/** One look of the board at its inputs, every `TICK_S`. Changes the board in place, for speed. */
export function tick(board: Board, set: Settings, input: Inputs): void {
	if (!set.alive) return;
	board.since += TICK_S;
	serve(board, input);
	if (board.serving !== 'nothing' && board.stage !== 'locked') {
		if (input.limitClosed) advance(board, set, input);
		else lock(board, 'overheat');
	}
	const { stage } = board;
	board.gas = stage === 'lighting' || stage === 'steadying' || stage === 'firing';
	board.spark = stage === 'lighting';
	board.fan = set.fanOutput && (board.gas || stage === 'proving-air' || stage === 'purging');
	board.pump = set.pumpStuckOn || (board.serving === 'heating' && stage !== 'locked');
	if (!board.gas) board.asked = 0;
}
