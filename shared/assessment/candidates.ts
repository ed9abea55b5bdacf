/** Callouts from which a place in a paper is filled. */
import type { Callout } from '#shared/callout/callout.ts';
import { makeCallout, NoComplaint } from '#shared/callout/make.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { chance, mostSeed, type Chance } from '#shared/quantity/random.ts';
import { shuffled } from '#shared/review/drills/draw.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Fault } from '#shared/scenario/schema.ts';
import type { Slot } from './blueprint.ts';
import { difficultyOf } from './difficulty.ts';
import type { CalloutItem } from './variant.ts';

export interface CandidateCount {
	readonly count: number;
	readonly chosen: number;
}

export type CalloutSlot = Extract<Slot, { kind: 'callout' }>;

/** Seeds tried for a fault before it is taken that no machine with it would be complained of. */
const mostTries = 20;

/** Beyond what is needed, callouts are drawn for so many places more, shared by all: the fewer places, the less evens out between them. */
const spare = 20;

/**
 * How many callouts to draw for places that ask for the same, so that variants come out alike and yet are drawn in seconds: in a whole
 * paper `variants` times (`places` + 20), a judgement of ours.
 * @param variants whole number > 0
 * @param places   callouts that the paper asks for, whole number > 0
 * @param alike    those of them that these callouts are for
 */
export const candidatesFor = (variants: number, places: number, alike = 1): number => Math.ceil(alike * variants * (1 + spare / places));

/** Faults that may be hidden in a place. Empty where the family has none in the area. */
export const faultsFor = ({ faults }: Pick<Pack, 'faults'>, { area }: Pick<CalloutSlot, 'area'>): readonly Fault[] =>
	faults.filter((fault) => area === null || fault.area === area);

/**
 * Callouts that a place may be filled from, or several that ask for the same. Faults come as often as their weight in the pack says, so
 * that a paper's faults are those of the trade, but none less often than if those that are chosen were shared out evenly: so there are
 * enough of each that none need be hidden twice in a place. Households and severity are those of each seed.
 * @param table  of that pack
 * @param count  how many, > 0; more where a fault would come too seldom
 * @param chosen how many of them will be chosen, at most `count`
 * @param seed   the paper's; the same seed, pack and place give the same callouts
 * @returns fewer than `count` only where machines with a fault are hardly ever complained of; none where the family has no such fault
 */
export function calloutCandidates(
	pack: Pack,
	table: EvidenceTable,
	slot: CalloutSlot,
	{ count, chosen }: CandidateCount,
	seed: number
): CalloutItem[] {
	const stream = chance(seed, 'paper', 'candidates', slot.slot, pack.family.id);
	const seeds = new Set<number>();
	const faults = faultsFor(pack, slot);
	const drawn = inProportion(faults, count, stream);
	const least = Math.ceil(chosen / faults.length);
	const lacking = faults.flatMap((fault) => Array<Fault>(Math.max(0, least - drawn.filter((one) => one === fault).length)).fill(fault));
	return [...drawn, ...lacking].flatMap((fault) => {
		for (let tries = 0; tries < mostTries; tries++) {
			const number = stream.whole(0, mostSeed);
			const callout = seeds.has(number) ? null : complainedOf(pack, number, fault.id);
			seeds.add(number);
			if (callout) return [itemOf(callout, fault, table)];
		}
		return [];
	});
}

const itemOf = (callout: Callout, { id, area }: Fault, table: EvidenceTable): CalloutItem => ({
	kind: 'callout',
	family: callout.pack.family.id,
	area,
	fault: id,
	complaint: callout.complaint.id,
	seed: callout.seed,
	packHash: callout.pack.hash,
	difficulty: difficultyOf(callout, table)
});

function complainedOf(pack: Pack, seed: number, fault: string): Callout | null {
	try {
		return makeCallout(pack, seed, fault);
	} catch (error) {
		if (error instanceof NoComplaint) return null;
		throw error;
	}
}

/**
 * So many faults, each as often as its share of the weight says, rounded up or down by chance (systematic sampling: evenly spaced points
 * along the weights laid end to end, in chance order, from a first point by chance).
 */
function inProportion(faults: readonly Fault[], count: number, stream: Chance): Fault[] {
	const order = shuffled(stream, faults);
	const total = order.reduce((sum, { weight }) => sum + weight, 0);
	const first = stream.uniform();
	let at = 0;
	let upTo = order[0]?.weight ?? 0;
	return Array.from({ length: order.length === 0 ? 0 : count }, (_, index) => {
		const point = ((index + first) / count) * total;
		while (point >= upTo && at < order.length - 1) upTo += order[++at].weight;
		return order[at];
	});
}
