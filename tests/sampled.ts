import { makeCallout } from '#shared/callout/make.ts';
import { sampleMachine } from '#shared/callout/sample-machine.ts';
import type { Callout, Machine } from '#shared/callout/callout.ts';
import type { Demand, Parameters, Quantities } from '#shared/appliance/model.ts';
import { packs } from '$lib/server/packs.ts';

const family = packs().get('combi-plate-primary');
if (!family) throw new Error('the pack combi-plate-primary is not in stock');
/** The pack of the combination boiler with plate exchanger, as it stands in `scenarios/`. */
export const combi = family;

/** Many machines of one fault, or healthy ones for `none`; whether anyone would complain of them or not. */
export function machinesWith(fault: string, count: number, severity?: number): Machine[] {
	return Array.from({ length: count }, (_, n) => sampleMachine(combi, 1000 + n, { fault, severity }));
}

/** Many callouts of one fault: machines that somebody would complain of. */
export function calloutsWith(fault: string, count: number): Callout[] {
	return Array.from({ length: count }, (_, n) => makeCallout(combi, 5000 + n, fault));
}

export function run(machine: Parameters, demand: Demand): Quantities {
	return combi.model.settle(machine, demand);
}

/** Number of the lockout that the quantity `lockout` carries for a name. */
export function lockoutNumber(name: string): number {
	const number = combi.model.lockouts.indexOf(name);
	if (number < 0) throw new Error(`no lockout is named ${name}`);
	return number;
}
