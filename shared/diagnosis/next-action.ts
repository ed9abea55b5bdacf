/**
 * What each possible next action would come to, in expected cost to the end of the visit, and so which is best and what any other loses.
 *
 * A check is worth what repairing by the policy of `expected-cost.ts` saves after each of its outcomes. The few best actions, and the one
 * asked about, are looked at one action deeper: after them one more check may be taken before repairing. Checks are there taken as
 * independent within a fault. Nothing is valued worse than taking it and carrying on as if it had shown nothing (`carry-on.ts`).
 */
import type { Pack } from '#shared/scenario/pack.ts';
import type { Complaint } from '#shared/scenario/schema.ts';
import { atWorstCarriedOn, looksFirst } from './carry-on.ts';
import { choiceKey } from './choice.ts';
import type { Choice } from './choice.ts';
import { columnKey } from './column-facts.ts';
import type { EvidenceTable, Suspicion } from './evidence.ts';
import { expectedRepairCost, repairBook } from './expected-cost.ts';
import type { RepairBook } from './expected-cost.ts';
import { curedFaults } from './likelihood.ts';
import type { Evidence } from './likelihood.ts';
import { lookAhead } from './look-ahead.ts';
import type { Option } from './look-ahead.ts';
import { attentionCost, choiceOf, looksOwed } from './looks.ts';
import type { LooksOwed } from './looks.ts';
import { prospects } from './outcomes.ts';
import { costOf, planCheck, planDemand, planLeave, planProof, planRemedy, planRepair } from './plan.ts';
import type { Plan, Situation } from './plan.ts';

export { choiceKey };
export type { Choice };

/** Where a visit stands when the next action is chosen. */
export interface Standing extends Situation {
	readonly complaint: Complaint;
	/** Remedies done. */
	readonly done: readonly string[];
	/** What is known of the last remedy. */
	readonly proof: 'none-due' | 'due' | 'still-faulty' | 'gone';
	/** Columns read since the last remedy: reading them again tells next to nothing. */
	readonly taken: ReadonlySet<string>;
	/** What was read at any time, under any demand, of what can show anything. */
	readonly read: readonly Evidence[];
}

export interface Valued {
	readonly choice: Choice;
	readonly plan: Plan;
	/** Expected cost of this action and all that follows it [currency]. */
	readonly expected: number;
}

interface Move extends Option<Situation> {
	readonly choice: Choice;
	readonly plan: Plan;
	/** What it takes by itself [currency]: its time and parts, and what it disturbs. */
	readonly own: number;
	/** The column that it reads. */
	readonly reads?: string;
}

/** Chance allowed that a repair not proved did not work, when leaving on it is weighed. */
const unprovedFails = 0.2;
/** How many checks and remedies are looked at one action deeper. */
const deeperChecks = 3;
const deeperRemedies = 3;

/**
 * Every action that could be taken next, the cheapest in the end first.
 * @param also actions to be valued as closely as the best ones, whatever they are
 */
export function nextActions(
	pack: Pack,
	table: EvidenceTable,
	belief: Suspicion,
	standing: Standing,
	also: Choice | readonly Choice[] = []
): Valued[] {
	const cured = curedFaults(pack, standing.done);
	const mass = belief.faults.map((p, fault) => (cured[fault] ? 0 : p));
	const owed = looksOwed(pack, table, standing, belief);
	const book = bookOf(pack, standing, owed);
	const proof = planProof(pack, standing, standing.complaint);
	const proofCost = proof ? costOf(pack, proof) : 0;
	const pending = standing.proof === 'due' ? proofCost : 0;
	const moves = [...checkMoves(pack, table, belief, standing, cured, owed), ...remedyMoves(pack, standing, mass, owed)];
	const keys = new Set(('kind' in also ? [also] : also).map(choiceKey));
	const deeper = lookAhead<Situation, Move>(book, mass, moves, {
		checks: deeperChecks,
		remedies: deeperRemedies,
		also: (move) => keys.has(choiceKey(move.choice))
	});
	const valued = deeper.map(({ option, expected }) => ({ choice: option.choice, plan: option.plan, expected: expected + pending }));
	if (proof) valued.push({ choice: { kind: 'prove' }, plan: proof, expected: proofCost + bestFrom(valued, pending, mass, book) });
	valued.push(...leaving(pack, standing, mass, book, proofCost));
	return cheapestFirst(atWorstCarriedOn(pack, standing, owed, moves, cheapestFirst(looksFirst(valued, owed))));
}

/** Each action once: where two ways lead to it, the cheaper. */
function cheapestFirst(valued: readonly Valued[]): Valued[] {
	const best = new Map<string, Valued>();
	// Of two that come to the same the look goes before what it is for.
	for (const one of [...valued].sort((a, b) => a.expected - b.expected || Number(isRemedy(a)) - Number(isRemedy(b)))) {
		const key = choiceKey(one.choice);
		if (!best.has(key)) best.set(key, one);
	}
	return [...best.values()];
}

const isRemedy = ({ choice }: Valued) => choice.kind === 'remedy';

/** What is still to come once a proof has shown how things stand. */
function bestFrom(valued: readonly Valued[], pending: number, mass: Float64Array, book: RepairBook): number {
	return valued.reduce((least, one) => Math.min(least, one.expected - pending), expectedRepairCost(book, mass));
}

/** Leaving with the fault still there brings the return visit, and the repair as well. */
function leaving(pack: Pack, standing: Standing, mass: Float64Array, book: RepairBook, proofCost: number): Valued[] {
	const plan = planLeave(pack, standing, []);
	if (!plan) return [];
	const faulty = mass.reduce((sum, p) => sum + p, 0);
	const back = costOf(pack, { minutes: pack.rules.returnMinutes, spent: 0 });
	const repair = expectedRepairCost(book, mass);
	const expected = standing.proof === 'due' ? proofCost + Math.max(faulty, unprovedFails) * back + repair : faulty * back + repair;
	return [{ choice: { kind: 'leave' }, plan, expected }];
}

/** The remedies not yet done, with all that belongs to each, as costs. */
function bookOf(pack: Pack, standing: Standing, owed: LooksOwed): RepairBook {
	const repairs = pack.remedies.flatMap((remedy) => {
		const plan = standing.done.includes(remedy.id) ? null : planRepair(pack, standing, remedy, standing.complaint);
		return plan ? [{ cost: costOf(pack, plan) + (owed.get(remedy.id)?.cost ?? 0), cures: curesOf(pack, remedy.id) }] : [];
	});
	// Giving up brings a return visit and, at worst, the dearest repair.
	const dearest = repairs.reduce((most, { cost }) => Math.max(most, cost), 0);
	return repairBook(pack.faults.length, repairs, dearest + costOf(pack, { minutes: pack.rules.returnMinutes, spent: 0 }));
}

const minutesOf = (pack: Pack, checks: readonly string[]): number =>
	pack.checks.reduce((sum, { id, minutes }) => sum + (checks.includes(id) ? minutes : 0), 0);

const curesOf = (pack: Pack, remedy: string): number[] =>
	pack.faults.flatMap((fault, index) => (fault.cured.includes(remedy) ? [index] : []));

function checkMoves(
	pack: Pack,
	table: EvidenceTable,
	belief: Suspicion,
	standing: Standing,
	cured: readonly boolean[],
	owed: LooksOwed
): Move[] {
	const open = cured.map((is) => !is);
	const attention = attentionCost(pack);
	return prospects(pack, table, belief.weights, open).flatMap(({ facts: { check, column }, joint }) => {
		if (standing.taken.has(columnKey(check.id, column.demand))) return [];
		const { demand } = column;
		const moves: Move[] = [];
		// What a look opens must be checked before leaving.
		const due = check.disturbs.flatMap((kind) => pack.rules.after[kind] ?? []);
		const afterwards = due.length === 0 ? 0 : costOf(pack, { minutes: minutesOf(pack, due), spent: 0 });
		// A look that a likely remedy owes is paid by taking it.
		const reads = columnKey(check.id, demand);
		const paid = [...owed.values()].reduce((sum, { chance, cost, brings }) => sum + chance * cost * (brings.get(reads) ?? 0), 0);
		const again = (from: Situation) => {
			const plan = planCheck(pack, from, check, demand);
			return plan && costOf(pack, plan) + attention + afterwards;
		};
		const add = (plan: Plan | null) => {
			if (!plan) return;
			const own = Math.max(costOf(pack, plan), attention) + afterwards;
			const cost = costOf(pack, plan) + attention + afterwards - paid;
			moves.push({ choice: choiceOf({ check, demand }), plan, own, cost, joint, after: plan.after, again, reads });
		};
		if (!check.noticed) add(planCheck(pack, standing, check, demand));
		else if (demand !== standing.demand) add(planDemand(pack, standing, demand, check.needs));
		return moves;
	});
}

function remedyMoves(pack: Pack, standing: Standing, mass: Float64Array, owed: LooksOwed): Move[] {
	return pack.remedies.flatMap((remedy) => {
		if (standing.done.includes(remedy.id)) return [];
		const whole = planRepair(pack, standing, remedy, standing.complaint);
		const plan = planRemedy(pack, standing, remedy);
		if (!whole || !plan) return [];
		const left = mass.slice();
		for (const fault of curesOf(pack, remedy.id)) left[fault] = 0;
		const choice: Choice = { kind: 'remedy', remedy: remedy.id };
		const cost = costOf(pack, whole) + (owed.get(remedy.id)?.cost ?? 0);
		return [{ choice, plan, own: cost, cost, joint: [left], after: whole.after }];
	});
}

/**
 * What a choice loses against the best one, at the belief that the list was made with.
 * @returns [currency], 0 for the best; null where the list does not have it
 */
export function regret(valued: readonly Valued[], choice: Choice): number | null {
	const key = choiceKey(choice);
	const found = valued.find((one) => choiceKey(one.choice) === key);
	return found ? Math.max(0, found.expected - valued[0].expected) : null;
}
