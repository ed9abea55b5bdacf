import { makeCallout } from '#shared/callout/make.ts';
import { sampleMachine } from '#shared/callout/sample-machine.ts';
import type { Callout, Machine } from '#shared/callout/callout.ts';
import type { Demand, Parameters, Quantities } from '#shared/appliance/model.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { packs } from '$lib/server/packs/packs.ts';

/** A family as it stands in `scenarios/`, with machines and callouts drawn from it. */
export interface Stock {
	readonly id: string;
	readonly pack: Pack;
	/** Ids of its faults, with `none` for the healthy machine first. */
	readonly faults: readonly string[];
	/** Many machines of one fault, or healthy ones for `none`; whether anyone would complain of them or not. */
	machinesWith(fault: string, count: number, severity?: number): Machine[];
	/** Many callouts of one fault: machines that somebody would complain of. */
	calloutsWith(fault: string, count: number): Callout[];
	run(machine: Parameters, demand: Demand): Quantities;
	/** Number of the lockout that the quantity `lockout` carries for a name. */
	lockoutNumber(name: string): number;
}

function stockOf(pack: Pack): Stock {
	return {
		id: pack.family.id,
		pack,
		faults: ['none', ...pack.faults.map((fault) => fault.id)],
		machinesWith: (fault, count, severity) => Array.from({ length: count }, (_, n) => sampleMachine(pack, 1000 + n, { fault, severity })),
		calloutsWith: (fault, count) => Array.from({ length: count }, (_, n) => makeCallout(pack, 5000 + n, fault)),
		run: (machine, demand) => pack.model.settle(machine, demand),
		lockoutNumber(name) {
			const number = pack.model.lockouts.indexOf(name);
			if (number < 0) throw new Error(`no lockout is named ${name}`);
			return number;
		}
	};
}

/** Every family in stock. */
export const stock: readonly Stock[] = [...packs().values()].map(stockOf);

export function stockNamed(id: string): Stock {
	const found = stock.find((one) => one.id === id);
	if (!found) throw new Error(`the family ${id} is not in stock`);
	return found;
}

const plate = stockNamed('combi-plate-primary');
/** The pack of the combination boiler with plate exchanger; the rest draws from it too. */
export const combi = plate.pack;
export const { machinesWith, calloutsWith, run, lockoutNumber } = plate;
