/** Machines that no evidence table has seen, and what a check reads of them. */
import type { Demand } from '#shared/appliance/model.ts';
import { fittingComplaints, runsOf, type Run } from '#shared/callout/complaints.ts';
import { sampleMachine } from '#shared/callout/sample-machine.ts';
import { read } from '#shared/callout/take-check.ts';
import { chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';

const known = new Map<string, Run[]>();

/** Sound machines, or machines of a fault that somebody would complain of. */
function machines(pack: Pack, fault: string, count: number): Run[] {
	const key = `${pack.family.id}/${fault}`;
	let runs = known.get(key);
	if (!runs) {
		runs = [];
		for (let n = 0; runs.length < count && n < 4 * count; n++) {
			const { faulty } = sampleMachine(pack, 700_000_000 + n, { fault });
			const run = runsOf((demand) => pack.model.settle(faulty, demand));
			if (fault === 'none' || fittingComplaints(pack, run).length > 0) runs.push(run);
		}
		known.set(key, runs);
	}
	return runs;
}

/** What the check reads of each. */
export function freshReadings(pack: Pack, check: Check, demand: Demand, fault: string, count: number): number[] {
	return machines(pack, fault, count).map(
		(run, n) => read(pack, check, run(demand)[check.reads]!, chance(n, 'fresh', check.id, demand)).value
	);
}
