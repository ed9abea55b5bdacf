/** The way that a fan drives air in and flue gas out, and what it makes of the flame's heat. */
import { combustionEfficiencyNet, type CombustionGas } from '#shared/physics/combustion.ts';

/** Share of the fan's pressure that flue and air duct take at full rate when clear. Invented, of the order of a short flue. */
export const FLUE_SHARE = 0.35;

/** A part of the way that can be obstructed. */
export interface Passage {
	/** Share of the fan's pressure that it takes at full rate when clear. */
	readonly share: number;
	/** Share of it still open, above 0 to 1. */
	readonly open: number;
}

/**
 * Air drawn per fan speed, both as shares of full: 1 with every passage clear.
 *
 * a = 1 / sqrt(1 - sum f + sum f / open^2)
 *
 * Assumes square-law resistances in series, what is left of the fan's pressure being lost where nothing obstructs.
 * @see shared/physics/hydraulics.ts for the square law
 */
export function airPerFanSpeed(passages: readonly Passage[]): number {
	let free = 1;
	for (const { share } of passages) free -= share;
	for (const { share, open } of passages) free += share / open ** 2;
	return 1 / Math.sqrt(free);
}

/**
 * Air ratio, fresh air counted only, where a share of flue gas is in the air drawn.
 *
 * oxygen balance: l^2 - d l + d r = 0
 * @param drawn what is drawn, over the least air that burns the gas  @param recirculated share of flue gas in it, 0 to 1
 */
export function freshAirRatio(drawn: number, recirculated: number): number {
	return recirculated > 0 ? (drawn + Math.sqrt(Math.max(0, drawn * drawn - 4 * drawn * recirculated))) / 2 : drawn;
}

/** Flue temperature [K] that has to move before efficiency is worked out again: 0.01 % of efficiency. */
const EFFICIENCY_HOLDS_K = 0.25;

/**
 * Share of the net heat that stays in the appliance, as a function of flue temperature [degC] and air ratio, worked out again only where
 * either has moved.
 * @param ratioHolds share by which the air ratio may move before that
 * @see shared/physics/combustion.ts
 */
export function heatKept(gas: CombustionGas, airTempC: number, ratioHolds = 0): (flueTempC: number, lambda: number) => number {
	const flue = { gas, lambda: Infinity, flueTempC: airTempC, airTempC };
	let efficiency = 0;
	let knownAtC = -Infinity;
	let knownAtLambda = 0;
	return (flueTempC, lambda) => {
		if (Math.abs(flueTempC - knownAtC) > EFFICIENCY_HOLDS_K || Math.abs(lambda - knownAtLambda) > ratioHolds * lambda) {
			knownAtC = flue.flueTempC = flueTempC;
			knownAtLambda = flue.lambda = lambda;
			efficiency = combustionEfficiencyNet(flue);
		}
		return efficiency;
	};
}
