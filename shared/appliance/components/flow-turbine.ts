/** A flow turbine: a rotor in the tap water that gives pulses. */
import type { Parameters } from '#shared/appliance/model.ts';

/** A rotor that has stopped needs the full stiction flow to start, and turns on until a little less. */
const KINETIC_SHARE = 0.97;

/**
 * Flow as a turbine senses it. The rotor breaks free at its stiction flow, stays turning until slightly below, and drags while it turns,
 * so that it under-reads. The swing of the main is what frees and stops a sticking rotor.
 *
 * sensed = sqrt(q^2 - s^2 / 2) while turning, with q swinging as the square root of the main's pressure
 *
 * Assumes the swing's effect on heat averages out over its period, so that only the rotor feels it. Common practice, no source.
 * @returns a function of mean flow [l/min], seconds since the tap was opened [s] and whether it turned a moment ago, giving the sensed
 * flow [l/min], 0 when it stands
 */
export function flowTurbine(p: Parameters): (lpm: number, seconds: number, turning: boolean) => number {
	const stiction = p['turbine.stictionLpm'];
	const ripple = p['water.ripple'];
	const perSecond = (2 * Math.PI) / p['water.ripplePeriodS'];
	if (p['turbine.turns'] === 0) return () => 0;
	if (stiction === 0) return (lpm) => lpm;
	return (lpm, seconds, turning) => {
		const now = lpm * Math.sqrt(1 + ripple * Math.sin(perSecond * seconds));
		const needed = turning ? KINETIC_SHARE * stiction : stiction;
		return now > needed ? Math.sqrt(now * now - 0.5 * stiction * stiction) : 0;
	};
}
