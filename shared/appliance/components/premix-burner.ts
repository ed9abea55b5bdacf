/** A premix burner: fan, ratio gas valve, injector, flue, flame. */
import type { Parameters } from '#shared/appliance/model.ts';
import { flameShare } from './flame.ts';
import { airPerFanSpeed, FLUE_SHARE, freshAirRatio } from './flue-way.ts';

/** Share of the fan's pressure that the way through the sump takes at full rate when clear. Invented, as much as the flue takes. */
const SUMP_SHARE = FLUE_SHARE;
/** A premix flame lifts off the burner beyond this air ratio, and burns sooted and unsteady below the other. Common practice, no source. */
const LIFTS_AT = 1.8;
const STARVES_AT = 0.9;
/** Flame current holds until the flame begins to lift. Common practice, no source. */
const WEAKENS_AT = 1.5;

/** What the fan speed makes of gas and air. Numbers are shares of full rate unless named otherwise. */
export interface Rate {
	/** Air drawn, share of full. */
	readonly airShare: number;
	/** Gas passed, share of full. */
	readonly gasShare: number;
	/** Air over the least that burns the gas, fresh air counted only. */
	readonly lambda: number;
	/** Flame current [uA], 0 where no flame can stand. */
	readonly flameMicroA: number;
}

/** Air drawn per fan speed, both as shares of full: 1 with flue and sump clear. */
function airPerSpeed(p: Parameters): number {
	return airPerFanSpeed([
		{ share: FLUE_SHARE, open: p['flue.openShare'] },
		{ share: SUMP_SHARE, open: p['trap.openShare'] }
	]);
}

/**
 * Pressure at the flue test point, which lies between sump and flue: what the flue gas needs to get out through the flue that is left.
 * @param fanShare speed, share of full  @returns [mbar]
 */
export function flueTestMbar(p: Parameters, fanShare: number): number {
	return (p['flue.testMbar'] * (fanShare * airPerSpeed(p)) ** 2) / p['flue.openShare'] ** 2;
}

/**
 * The burner as a function of fan speed. Air follows speed against the flue's resistance; the ratio valve lets gas follow air, through
 * the injector, up to what the gas pressure can push.
 *
 * gas = min(air (design / set) injector, sqrt(pressure / losses at full rate)),  lambda = design air / gas, of which fresh air counts.
 *
 * Assumes square-law resistances, and a ratio valve that is exact until pressure runs out. Flue and sump together take 70 % of the fan's pressure
 * at full rate (invented, of the order of a short flue).
 * @see flue-way.ts for the air; shared/physics/gas.ts for the square law of gas
 */
export function premixBurner(p: Parameters): (fanShare: number) => Rate {
	const perSpeed = airPerSpeed(p);
	const design = p['burner.designLambda'];
	const gasPerAir = (design / p['burner.lambda']) * p['gas.injectorOpen'];
	const losses =
		p['gas.meterDroopMbar'] + p['gas.pipeLossMbar'] + p['gas.inletLossMbar'] / p['gas.inletOpen'] ** 2 + p['gas.valveLossMbar'];
	const mostGas = p['gas.valveOpens'] * Math.sqrt(p['gas.meterMbar'] / losses);
	const recirculated = p['flue.recirculated'];
	const fullMicroA = p['flame.microA'] * p['flame.electrode'];

	return (fanShare) => {
		const airShare = fanShare * perSpeed;
		const gasShare = Math.min(airShare * gasPerAir, mostGas);
		if (gasShare <= 0) return { airShare, gasShare: 0, lambda: Infinity, flameMicroA: 0 };
		const drawn = (design * airShare) / gasShare;
		const lambda = freshAirRatio(drawn, recirculated);
		const stands = lambda > STARVES_AT && lambda < LIFTS_AT;
		const lift = lambda <= WEAKENS_AT ? 1 : (LIFTS_AT - lambda) / (LIFTS_AT - WEAKENS_AT);
		return { airShare, gasShare, lambda, flameMicroA: stands ? fullMicroA * lift * flameShare(gasShare) : 0 };
	};
}

/**
 * Carbon monoxide in dry flue gas: flat for a well-set flame, rising steeply when air runs short and when the flame begins to lift.
 *
 * Shape only: common practice, no source.
 * @param basePpm of the well-set flame [ppm]  @param lambda air ratio
 * @returns [ppm], at most 4000 (the top of a common analyser)
 */
export function carbonMonoxidePpm(basePpm: number, lambda: number): number {
	const short = Math.exp((1.1 - lambda) / 0.03);
	const lifting = Math.exp((lambda - 1.62) / 0.06);
	return Math.min(4000, basePpm * (1 + short + lifting));
}
