/** An open burner fed through injectors, its rate set by the gas pressure at the burner and not by the air. */
import { gases } from '#shared/physics/gas.ts';
import type { Parameters } from '#shared/appliance/model.ts';
import { flameShare } from './flame.ts';
import { freshAirRatio } from './flue-way.ts';
import { burnt } from './gas-supply.ts';

/** Below this air ratio the flame is starved and does not stand. Common practice, no source. */
const STARVES_AT = 0.95;

/** What burner pressure and air make. Numbers are shares of full rate unless named otherwise. */
export interface Rate {
	/** Pressure at the burner's test point [mbar]. */
	burnerMbar: number;
	gasShare: number;
	/** Air over the least that burns the gas, fresh air counted only. */
	lambda: number;
	/** Flame current [uA], 0 where no flame can stand. */
	flameMicroA: number;
}

/** Burner pressure at full rate on the gas that it burns: in proportion to that gas's nominal supply pressure, as its injectors are sized for it [mbar]. */
export function fullBurnerMbar(p: Parameters): number {
	return (p['burner.fullMbar'] * gases[burnt(p).id].testMbar.nominal) / gases.G20.testMbar.nominal;
}

/**
 * The burner as a function of what the board asks of the modulator and of the air. The modulator sets the pressure at the burner; what the
 * supply can still give at that flow caps it. The jets draw their own first air, so a flame stands however much air passes it.
 *
 * p = min(pn max(least^2, min(set, c^2)), pm / (1 + L i^2 / pn)),  g = i sqrt(p / pn),  lambda = design air / gas
 *
 * pn: burner pressure at full rate; L: losses from meter to burner at full rate; i: share of the injectors open; c: share of full rate asked for.
 * @returns a function that writes into one object, for speed
 * @see shared/physics/gas.ts for the square laws of injector and pipe
 */
export function pressureBurner(p: Parameters): (asked: number, air: number) => Rate {
	const fullMbar = fullBurnerMbar(p);
	const injectors = p['gas.injectorOpen'];
	const losses = p['gas.meterDroopMbar'] + p['gas.pipeLossMbar'] + p['gas.valveLossMbar'];
	const mostMbar = p['gas.meterMbar'] / (1 + (losses * injectors * injectors) / fullMbar);
	const least = p['burner.leastShare'] ** 2;
	const setShare = p['burner.setShare'];
	const moves = p['modulator.joined'] > 0;
	const opens = p['gas.valveOpens'] > 0;
	const design = p['burner.designLambda'];
	const recirculated = p['flue.recirculated'];
	const fullMicroA = p['flame.microA'] * p['flame.electrode'];
	const now: Rate = { burnerMbar: 0, gasShare: 0, lambda: Infinity, flameMicroA: 0 };

	return (asked, air) => {
		now.burnerMbar = opens ? Math.min(fullMbar * Math.max(least, moves ? Math.min(setShare, asked * asked) : 0), mostMbar) : 0;
		now.gasShare = injectors * Math.sqrt(now.burnerMbar / fullMbar);
		now.lambda = now.gasShare > 0 ? freshAirRatio((design * air) / now.gasShare, recirculated) : Infinity;
		const stands = now.gasShare > 0 && now.lambda > STARVES_AT;
		now.flameMicroA = stands ? fullMicroA * flameShare(now.gasShare) : 0;
		return now;
	};
}

/** Air ratio at which carbon monoxide has doubled, and what it must fall by for the rise to grow e times. Common practice, no source. */
const CO_DOUBLES_AT = 1.4;
const CO_GROWS_OVER = 0.06;
/** Share of their mean by which soot that closes the whole way would set the air of two halves of a burner apart. Common practice, no source. */
const SOOT_PARTS_AIR = 0.25;

/**
 * Carbon monoxide in dry flue gas of an open burner: of the flue gas free of excess air it is flat, until air runs short.
 *
 * CO = base co2 (1 + (r(l (1 + s)) + r(l (1 - s))) / 2),  r(l) = exp((1.4 - l) / 0.06),  s = 0.25 (1 - open)
 *
 * The jets draw only part of their air; the rest must reach the flame through the fins above it. Soot never lies evenly, so that one half of
 * the burner is short of air before the whole is: the mean of two halves is taken. Shape and figures: common practice, no source.
 * @param basePpm  of the well-set flame, free of excess air [ppm]  @param lambda air ratio  @param co2Share CO2 over the greatest of the gas
 * @param finsOpen share of the way between the fins that soot has left, 0 to 1
 * @returns [ppm], at most 4000 (the top of a common analyser)
 */
export function openBurnerCoPpm(basePpm: number, lambda: number, co2Share: number, finsOpen: number): number {
	const apart = SOOT_PARTS_AIR * (1 - finsOpen);
	const rise = (share: number): number => Math.exp((CO_DOUBLES_AT - lambda * share) / CO_GROWS_OVER);
	return Math.min(4000, basePpm * co2Share * (1 + (rise(1 + apart) + rise(1 - apart)) / 2));
}
