/** The appliance of a callout under a demand, run once and remembered. */
import type { Demand, Quantities } from '#shared/appliance/model.ts';
import type { Callout } from './callout.ts';
import { runsOf, type Run } from './complaints.ts';

const known = new WeakMap<Callout, { readonly sound: Run; readonly faulty: Run }>();

/** @param cured whether the fault has been put right by now */
export function settled(callout: Callout, cured: boolean, demand: Demand): Quantities {
	let runs = known.get(callout);
	if (!runs) {
		const { model } = callout.pack;
		runs = {
			sound: runsOf((other) => model.settle(callout.sound, other)),
			faulty: runsOf((other) => model.settle(callout.faulty, other))
		};
		known.set(callout, runs);
	}
	return (cured ? runs.sound : runs.faulty)(demand);
}
