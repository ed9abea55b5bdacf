/** A fan of one speed, the flue that it drives, and the switch that proves the air by the pressure that it makes. */
import type { Parameters } from '#shared/appliance/model.ts';
import { airPerFanSpeed, FLUE_SHARE } from './flue-way.ts';

/** Share of the fan's pressure that the fins take when clear. Invented. */
const FINS_SHARE = 0.3;

/** Air drawn per fan speed, both as shares of full. */
export function airShare(p: Parameters): number {
	return airPerFanSpeed([
		{ share: FLUE_SHARE, open: p['flue.openShare'] },
		{ share: FINS_SHARE, open: p['exchanger.finsOpen'] }
	]);
}

/**
 * Pressure that the air makes across the fan's venturi.
 *
 * p = pn a^2
 * @param air share of full  @returns [mbar]
 * @see shared/physics/gas.ts for the square law
 */
export function venturiMbar(p: Parameters, air: number): number {
	return p['airSwitch.fullMbar'] * air * air;
}

/**
 * Whether the contact of the air-pressure switch is closed. It closes at one pressure and opens at a lower one; a held contact stays.
 * @returns a function of the pressure at the switch [mbar] and whether it was closed a moment ago
 */
export function airSwitch(p: Parameters): (mbar: number, closed: boolean) => boolean {
	const heldAt = p['airSwitch.heldAt'];
	if (heldAt >= 0) return () => heldAt > 0;
	return (mbar, closed) => mbar > (closed ? p['airSwitch.opensMbar'] : p['airSwitch.closesMbar']);
}
