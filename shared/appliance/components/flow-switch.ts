/** A flow switch: a rod that the flow of tap water pushes in, and a contact that it closes. It says that water flows, not how much. */
import type { Parameters } from '#shared/appliance/model.ts';

/**
 * Whether the contact is closed. The rod goes in at one flow and comes out at a lower one; a stiff rod needs so many times more of both. A
 * held contact stays where it is whatever flows.
 * @returns a function of flow [l/min] and whether it was closed a moment ago
 */
export function flowSwitch(p: Parameters): (lpm: number, closed: boolean) => boolean {
	const heldAt = p['flowSwitch.heldAt'];
	if (heldAt >= 0) return () => heldAt > 0;
	const closesLpm = p['flowSwitch.closesLpm'] * p['flowSwitch.stiffness'];
	const opensLpm = p['flowSwitch.opensLpm'] * p['flowSwitch.stiffness'];
	return (lpm, closed) => lpm > (closed ? opensLpm : closesLpm);
}
