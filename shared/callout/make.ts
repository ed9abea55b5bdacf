/** Makes a callout from a pack and a seed. */
import { chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Callout, Machine } from './callout.ts';
import { fittingComplaints, runsOf } from './complaints.ts';
import { sampleMachine, type Wanted } from './sample-machine.ts';

/** Fault and severity are redrawn this often for one household, and then the household, before giving up. */
const mostDraws = 30;
const mostHomes = 20;

/** No machine drawn gave rise to a complaint: nobody would have called. */
export class NoComplaint extends Error {
	constructor(family: string, seed: number, fault: string | undefined) {
		super(
			`nobody would complain: no machine of ${family} drawn from seed ${seed}${fault ? ` with fault "${fault}"` : ''} fits any complaint`
		);
		this.name = 'NoComplaint';
	}
}

/**
 * The callout of a seed: household, hidden fault and severity are drawn; a machine that nobody would complain of is drawn again, in a way
 * that depends on the seed alone; the complaint is picked evenly among those that hold.
 *
 * So the chance of a machine, given the complaint, is in proportion to its prior weight over the number of complaints that fit it.
 * @param seed  any safe integer, >= 0
 * @param fault id of the fault to hide; drawn where left out
 * @param kept  a severity or household values to be kept instead of drawn
 * @throws UnknownFault, NoComplaint
 */
export function makeCallout(pack: Pack, seed: number, fault?: string, kept: Pick<Wanted, 'severity' | 'overrides'> = {}): Callout {
	for (let home = 0; home < mostHomes; home++) {
		for (let draw = 0; draw < mostDraws; draw++) {
			const machine = sampleMachine(pack, seed, { ...kept, fault, home, draw });
			const callout = calloutOf(pack, seed, machine);
			if (callout) return callout;
			if (machine.fault === null || (fault !== undefined && kept.severity !== undefined)) break;
		}
	}
	throw new NoComplaint(pack.family.id, seed, fault);
}

function calloutOf(pack: Pack, seed: number, machine: Machine): Callout | null {
	const fitting = fittingComplaints(
		pack,
		runsOf((demand) => pack.model.settle(machine.faulty, demand))
	);
	if (fitting.length === 0) return null;
	const complaint = chance(seed, 'complaint').pick(fitting);
	return { ...machine, pack, seed, complaint, complaintSays: chance(seed, 'complaint-says').pick(complaint.says) };
}
