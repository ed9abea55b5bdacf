/** An open burner fed through injectors, its rate set by the gas pressure at the burner and not by the air. */
import { gases } from '#shared/physics/gas.ts';
import type { Parameters } from '#shared/appliance/model.ts';
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
		now.flameMicroA = stands ? fullMicroA * (0.55 + 0.45 * Math.min(1, now.gasShare)) : 0;
		return now;
	};
}

/**
 * Carbon monoxide in dry flue gas of an open burner: of the flue gas free of excess air it is flat, until air runs short.
 *
 * Shape only: common practice, no source.
 * @param basePpm of the well-set flame, free of excess air [ppm]  @param lambda air ratio  @param co2Share CO2 over the greatest of the gas
 * @returns [ppm], at most 4000 (the top of a common analyser)
 */
export function openBurnerCoPpm(basePpm: number, lambda: number, co2Share: number): number {
	return Math.min(4000, basePpm * co2Share * (1 + Math.exp((1.2 - lambda) / 0.04)));
}
