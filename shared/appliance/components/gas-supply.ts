/** Gas on its way to an appliance: which gas it is, and what is left of the pressure. */
import { combustionOf, type CombustionGas } from '#shared/physics/combustion.ts';
import { pressureLossMbar, type GasId } from '#shared/physics/gas.ts';
import type { Parameters } from '#shared/appliance/model.ts';

/** The reference gas that the machine burns. @throws RangeError where `gas.reference` is none. */
export function burnt(p: Parameters): CombustionGas {
	const gas = combustionOf(`G${p['gas.reference']}` as GasId);
	if (!gas) throw new RangeError(`gas.reference is ${p['gas.reference']}; expected 20, 25, 30 or 31`);
	return gas;
}

/** Share of full rate at which the pressure that a regulator holds above its set one, with nothing drawn, has gone. Invented. */
const LOCK_UP_GONE_AT = 0.2;

/** Pressures [mbar] on the gas way at a gas rate, a share of full: at the meter outlet, and at the appliance's inlet test point. */
export function gasPressures(p: Parameters, gasShare: number): { meterMbar: number; inletMbar: number } {
	const standing = p['gas.lockupMbar'] * Math.max(0, 1 - gasShare / LOCK_UP_GONE_AT);
	const meterMbar = p['gas.meterMbar'] + standing - pressureLossMbar(gasShare, p['gas.meterDroopMbar'], 1);
	return { meterMbar, inletMbar: meterMbar - pressureLossMbar(gasShare, p['gas.pipeLossMbar'], 1) };
}
