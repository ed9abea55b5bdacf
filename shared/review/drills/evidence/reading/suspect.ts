/** A reading taken to find out about one suspected fault: drawn so that every judgement of it comes up, then judged on what was read. */
import type { ColumnFacts } from '#shared/diagnosis/column-facts.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { healthyLikelihood } from '#shared/diagnosis/likelihood.ts';
import type { Observed } from '#shared/quantity/instrument.ts';
import type { Chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check, Fault } from '#shared/scenario/schema.ts';
import { likelihoodByFault, standsAmongSound, type Stands } from '../likely.ts';
import { proneOf, type Prone } from '../prone.ts';
import { setUp, takeOf, whyOf } from '../taken.ts';

/** One reading and what was suspected when it was taken. */
export interface Suspected {
	readonly facts: ColumnFacts;
	/** Index into `pack.faults`. */
	readonly suspect: number;
	readonly reading: Observed;
	readonly household: string;
	readonly stands: Stands;
	/** How much likelier the reading is with the suspected fault than without any. */
	readonly ratio: number;
	/** Share of the suspected fault's machines that read as sound ones do. */
	readonly within: number;
	/** Likelihood of the reading with each fault. */
	readonly likelihoods: Float64Array;
	/** Why it read that. */
	readonly why: string;
}

/** What is hoped to come up; what did is judged afterwards. `elsewhere`: not sound, and not by the suspected fault. */
export type Hoped = 'sound' | 'apart' | 'elsewhere' | 'cannot-tell';

/** From these shares of a fault's machines it is likely enough that a draw comes out as hoped. */
const mostly = 0.6;
const seldom = 0.1;

/** @param kind whether the column may be asked about */
export function drawSuspected(
	pack: Pack,
	table: EvidenceTable,
	stream: Chance,
	hoped: Hoped,
	kind: (facts: ColumnFacts) => boolean
): Suspected | null {
	const prone = proneOf(pack, table).filter(({ facts }) => kind(facts));
	const comesOut = (one: Prone) =>
		hoped === 'apart' ? one.within <= 1 - mostly : hoped === 'sound' ? one.within <= seldom : one.within >= mostly;
	const fits = (one: Prone) => comesOut(one) && wouldTake(pack, pack.faults[one.fault], one.facts.check);
	const columns = [...new Set(prone.filter(fits).map(({ facts }) => facts))];
	if (columns.length === 0) return null;
	const facts = stream.pick(columns);
	const pairs = prone.filter((one) => one.facts === facts);
	const suspects = pairs.filter(fits);
	const { fault: suspect, within } = stream.pick(suspects, ({ fault }) => nearness(pack.faults[fault], facts));
	const hidden = hiddenFault(stream, pairs, suspects, suspect, hoped);
	const bench = setUp(pack, stream, hidden === null ? 'none' : pack.faults[hidden].id);
	const { check, column } = facts;
	const reading = takeOf(pack, bench, check, column.demand, stream);
	const likelihoods = likelihoodByFault(pack, table, { facts, value: reading.value });
	return {
		facts,
		suspect,
		reading,
		household: bench.machine.household.says,
		stands: standsAmongSound({ facts, value: reading.value }),
		ratio: likelihoods[suspect] / healthyLikelihood(facts, reading.value),
		within,
		likelihoods,
		why: whyOf(bench, check, column.demand)
	};
}

/**
 * Whether somebody with a suspicion would take a check: it shows the fault, it is of the fault's area, or it shows a rival, which is a fault
 * that some check shows as well as this one. That people look there is common practice, no source.
 */
export function wouldTake({ faults }: Pack, suspect: Fault, check: Check): boolean {
	if (suspect.shown.includes(check.id) || suspect.area === check.area) return true;
	return faults.some(({ shown }) => shown.includes(check.id) && shown.some((id) => suspect.shown.includes(id)));
}

/** How much a suspicion and a check that one would take on it have to do with each other, as weights of a draw. */
function nearness(fault: Fault, { check }: ColumnFacts): number {
	if (fault.shown.includes(check.id)) return 8;
	return fault.area === check.area ? 4 : 1;
}

function hiddenFault(stream: Chance, pairs: readonly Prone[], suspects: readonly Prone[], suspect: number, hoped: Hoped): number | null {
	if (hoped === 'sound' || hoped === 'cannot-tell') return hiddenWithin(stream, pairs, suspect, hoped);
	// Mostly the suspected fault; now and then another that reads apart too.
	if (hoped === 'apart') return stream.uniform() < 0.6 ? suspect : stream.pick(suspects).fault;
	const apart = pairs.filter(({ within }) => within <= 1 - mostly);
	return apart.length > 0 ? stream.pick(apart).fault : null;
}

/** A sound machine, the suspected fault where it reads as sound ones do, or another that does. */
function hiddenWithin(stream: Chance, pairs: readonly Prone[], suspect: number, hoped: Hoped): number | null {
	const share = stream.uniform();
	if (share < 0.3) return null;
	if (hoped === 'cannot-tell' && share < 0.7) return suspect;
	const others = pairs.filter(({ within }) => within >= mostly);
	return others.length > 0 ? stream.pick(others).fault : null;
}
