/**
 * What is offered beside the best check, each of a kind that tempts for a reason of its own. All are valued as closely as the best, and
 * none is offered that is within noise of it. That these are what tempts is common practice, no source.
 */
import { entropyBits } from '#shared/diagnosis/expected-cost.ts';
import type { EvidenceTable, Suspicion } from '#shared/diagnosis/evidence.ts';
import { choiceKey, nextActions, type Choice, type Standing, type Valued } from '#shared/diagnosis/next-action.ts';
import { prospects, type Prospect } from '#shared/diagnosis/outcomes.ts';
import { isShown } from '#shared/diagnosis/proof.ts';
import type { Chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { someOf } from '../../draw.ts';
import { openChecks, type Open, type Visit } from '../visit.ts';

/** Why somebody would take it. */
export type Lure = 'tells-most' | 'swap' | 'tells-nothing' | 'opens-up';

export interface Offer {
	readonly valued: Valued;
	/** Null for the best. */
	readonly lure: Lure | null;
}

export interface Offers {
	readonly best: Offer;
	readonly others: readonly Offer[];
	/** Two faults still held likely that the best check tells apart, by index; null where it does so with no two. */
	readonly parts: readonly [number, number] | null;
}

/** Of each kind so many are valued, so that one of them is likely to be well below the best. */
const tried: Record<Lure, number> = { 'tells-most': 3, swap: 2, 'tells-nothing': 3, 'opens-up': 2 };
/** A check that brings no more than this is one that tells nothing new [bits]. */
const nothingBits = 0.02;
/** A quick check is one of at most so long [min]; one that opens up takes at least so long. */
const quickMin = 5;
const longMin = 12;
/** A part that anyone would think of changing is held at least so likely. */
const tempting = 0.03;
/** Choices offered, the best included. */
const offered = 4;
const leastOffered = 3;

interface Candidate {
	readonly choice: Choice;
	readonly lure: Lure;
}

/** @returns null where the best next action is no check, or too little is clearly below it */
export function drawOffers(
	pack: Pack,
	table: EvidenceTable,
	visit: Visit,
	belief: Suspicion,
	standing: Standing,
	stream: Chance
): Offers | null {
	// So near a proof the best is hardly a check: spares the valuing.
	if (belief.remedies.some((chance) => chance >= pack.rules.proof.proved)) return null;
	const told = prospects(
		pack,
		table,
		belief.weights,
		pack.faults.map(() => true)
	);
	const candidates = candidatesOf(pack, table, visit, belief, standing, told, stream);
	const valued = nextActions(
		pack,
		table,
		belief,
		standing,
		candidates.map(({ choice }) => choice)
	);
	const [best] = valued;
	if (best.choice.kind !== 'check') return null;
	// The share of the cost up to which marking counts an action as justified: nearer than that, either would do.
	const noise = pack.rules.weighing.justifiedRegret * best.expected;
	const byKey = new Map(valued.map((one) => [choiceKey(one.choice), one]));
	const below = candidates.flatMap(({ choice, lure }): Offer[] => {
		const found = byKey.get(choiceKey(choice));
		// To open up is too soon only where the best leaves everything shut, and is done sooner.
		if (lure === 'opens-up' && !(found && leavesShut(pack, best) && best.plan.minutes < found.plan.minutes)) return [];
		return found && found.expected > best.expected + noise ? [{ valued: found, lure }] : [];
	});
	const others = oneOfEach(stream, below);
	if (others.length + 1 < leastOffered) return null;
	return { best: { valued: best, lure: null }, others, parts: partsOf(told, best.choice, belief) };
}

function candidatesOf(
	pack: Pack,
	table: EvidenceTable,
	visit: Visit,
	belief: Suspicion,
	standing: Standing,
	told: readonly Prospect[],
	stream: Chance
): Candidate[] {
	const before = entropyBits(belief.faults);
	const bits = new Map(
		told.map(({ facts, joint }) => [facts, before - joint.reduce((sum, mass) => sum + massOf(mass) * entropyBits(mass), 0)])
	);
	const bitsOf = ({ check, demand }: Open) =>
		bits.get(told.find(({ facts }) => facts.check === check && facts.column.demand === demand)!.facts) ?? 0;
	const open = openChecks(pack, visit).map((one) => ({ ...one, bits: bitsOf(one) }));
	const ask = ({ check, demand }: Open): Choice => ({ kind: 'check', check: check.id, demand });
	const opensUp = ({ check, plan }: Open) =>
		plan.minutes >= longMin && (check.disturbs.length > 0 || plan.actions.some(({ kind }) => kind === 'step'));
	const lures: Record<Lure, Choice[]> = {
		'tells-most': [...open]
			.sort((a, b) => b.bits - a.bits)
			.slice(0, tried['tells-most'])
			.map(ask),
		swap: [...pack.remedies.keys()]
			.filter((index) => pack.remedies[index].part !== undefined && belief.remedies[index] >= tempting)
			.filter((index) => !isProved(pack, table, belief, standing, index))
			.sort((a, b) => belief.remedies[b] - belief.remedies[a])
			.slice(0, tried.swap)
			.map((index) => ({ kind: 'remedy', remedy: pack.remedies[index].id })),
		'tells-nothing': someOf(
			stream,
			open.filter(({ bits, plan }) => bits <= nothingBits && plan.minutes <= quickMin),
			tried['tells-nothing']
		).map(ask),
		'opens-up': someOf(stream, open.filter(opensUp), tried['opens-up']).map(ask)
	};
	return (Object.keys(lures) as Lure[]).flatMap((lure) => lures[lure].map((choice) => ({ choice, lure })));
}

/** Whether nothing has to be opened or isolated for a check, and nothing is disturbed by it. */
function leavesShut(pack: Pack, { choice, plan }: Valued): boolean {
	const check = choice.kind === 'check' && pack.checks.find(({ id }) => id === choice.check);
	return check !== false && check?.disturbs.length === 0 && plan.actions.every(({ kind }) => kind !== 'step');
}

function isProved(pack: Pack, table: EvidenceTable, belief: Suspicion, { read }: Standing, remedy: number): boolean {
	return belief.remedies[remedy] >= pack.rules.proof.likely && isShown(pack, table, belief.faults, read, pack.remedies[remedy].id);
}

/** At most one of each kind, in chance order. */
function oneOfEach(stream: Chance, offers: readonly Offer[]): Offer[] {
	const out: Offer[] = [];
	for (const offer of someOf(stream, offers, offers.length)) {
		const again = out.some(
			({ lure, valued }) =>
				lure === offer.lure || choiceKey(valued.choice) === choiceKey(offer.valued.choice) || sameCheck(valued, offer.valued)
		);
		if (!again) out.push(offer);
	}
	return out.slice(0, offered - 1);
}

const sameCheck = (a: Valued, b: Valued): boolean =>
	a.choice.kind === 'check' && b.choice.kind === 'check' && a.choice.check === b.choice.check;

const massOf = (mass: Float64Array): number => mass.reduce((sum, m) => sum + m, 0);

/** Faults held at least so likely are worth telling apart; outcomes that differ in at least so much of their chance do so. */
const worthTelling = 0.05;
const tellsApart = 0.5;

function partsOf(told: readonly Prospect[], choice: Choice, { faults }: Suspicion): [number, number] | null {
	const prospect = told.find(
		({ facts }) => choice.kind === 'check' && facts.check.id === choice.check && facts.column.demand === choice.demand
	);
	if (!prospect) return null;
	const likely = [...faults.keys()].filter((fault) => faults[fault] >= worthTelling);
	const apart = (a: number, b: number) =>
		prospect.joint.reduce((sum, mass) => sum + Math.abs(mass[a] / faults[a] - mass[b] / faults[b]), 0) / 2;
	const pairs = likely
		.flatMap((a, at) => likely.slice(at + 1).map((b) => ({ a, b, tells: apart(a, b), weight: faults[a] * faults[b] })))
		.filter(({ tells }) => tells >= tellsApart)
		.sort((one, other) => other.tells * other.weight - one.tells * one.weight);
	return pairs[0] ? [pairs[0].a, pairs[0].b] : null;
}
