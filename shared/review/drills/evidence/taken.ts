/** A sampled machine and what checks read of it. */
import type { Demand } from '#shared/appliance/model.ts';
import { runsOf, type Run } from '#shared/callout/complaints.ts';
import type { Machine } from '#shared/callout/callout.ts';
import { sampleMachine } from '#shared/callout/sample-machine.ts';
import { read } from '#shared/callout/take-check.ts';
import { trueValue } from '#shared/diagnosis/columns.ts';
import { fillWhy, whyRead } from '#shared/marking/reasons.ts';
import type { Observed } from '#shared/quantity/instrument.ts';
import { mostSeed, type Chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';

export interface Bench {
	readonly machine: Machine;
	/** Each demand is run once. */
	readonly run: Run;
}

/** @param fault id of the hidden fault, or `none` */
export function setUp(pack: Pack, stream: Chance, fault: string): Bench {
	const machine = sampleMachine(pack, stream.whole(0, mostSeed), { fault });
	return { machine, run: runsOf((demand) => pack.model.settle(machine.faulty, demand)) };
}

export function takeOf(pack: Pack, { machine, run }: Bench, check: Check, demand: Demand, stream: Chance): Observed {
	return read(pack, check, trueValue(check, run(demand), machine.household.facts), stream);
}

/** Why the check read what it read, from the run. */
export const whyOf = ({ machine, run }: Bench, check: Check, demand: Demand): string =>
	fillWhy(whyRead(check, trueValue(check, run(demand), machine.household.facts)), run(demand));
