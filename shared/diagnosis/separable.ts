/**
 * Whether the checks that a pack offers can tell each fault from each other, judged between the two at equal chances.
 *
 * First each check on its own; where none is enough, the best few together, on simulated readings of sampled machines that are left out
 * of what they are judged by. Faults declared alike that share a remedy need no telling apart.
 */
import { read } from '#shared/callout/take-check.ts';
import { chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Fault } from '#shared/scenario/schema.ts';
import { tableFacts } from './column-facts.ts';
import type { ColumnFacts } from './column-facts.ts';
import type { EvidenceTable } from './evidence.ts';
import { readingLikelihood } from './likelihood.ts';
import { outcomesByFault } from './outcomes.ts';

/** Two faults that the checks offered do not tell apart. */
export interface Inseparable {
	readonly a: string;
	readonly b: string;
	/** The checks that come nearest to it. */
	readonly by: string;
	/** Share of machines of the worse told fault that are taken for the other. */
	readonly overlap: number;
}

/** Most machines of either fault that may be taken for the other. */
const mostWrong = 0.05;
const checksTogether = 4;
const checksTried = 30;
const machinesTried = 60;

interface Telling {
	readonly facts: ColumnFacts;
	readonly wrong: number;
}

/** The pairs that fall short, in the pack's order; empty where every fault can be told from every other. */
export function separable(pack: Pack, table: EvidenceTable): Inseparable[] {
	const columns = outcomesByFault(pack, table);
	return pack.faults.flatMap((one, a) =>
		pack.faults.slice(a + 1).flatMap((other, after): Inseparable[] => {
			const b = a + 1 + after;
			if (areAlike(one, other)) return [];
			const told = columns.map(({ facts, given }): Telling => ({ facts, wrong: wrongAlone(given, a, b) }));
			told.sort((x, y) => x.wrong - y.wrong || x.facts.index - y.facts.index);
			if (told[0].wrong <= mostWrong) return [];
			const { by, overlap } = together(pack, table, ofUnlikeChecks(told), a, b);
			return overlap <= mostWrong ? [] : [{ a: one.id, b: other.id, by, overlap }];
		})
	);
}

/** Declared alike by either, with a remedy that cures both. */
export function areAlike(one: Fault, other: Fault): boolean {
	return (one.alike.includes(other.id) || other.alike.includes(one.id)) && one.cured.some((remedy) => other.cured.includes(remedy));
}

/** Share of the worse told fault on the wrong side of one check. */
function wrongAlone(given: readonly Float64Array[], a: number, b: number): number {
	let wrongA = 0;
	let wrongB = 0;
	for (const chances of given) {
		if (chances[a] < chances[b]) wrongA += chances[a];
		else wrongB += chances[b];
	}
	return Math.max(wrongA, wrongB);
}

/** The columns that tell best alone, each check once. */
function ofUnlikeChecks(told: readonly Telling[]): ColumnFacts[] {
	const seen = new Set<string>();
	const best = told.filter(({ facts }) => !seen.has(facts.check.id) && seen.add(facts.check.id));
	return best.slice(0, checksTried).map(({ facts }) => facts);
}

/** Adds the check that helps most, until the two are told apart or more checks do not help. */
function together(pack: Pack, table: EvidenceTable, columns: readonly ColumnFacts[], a: number, b: number) {
	const spoken = [trials(pack, table, columns, a, b), trials(pack, table, columns, b, a)];
	const chosen: number[] = [];
	let overlap = 1;
	while (chosen.length < checksTogether && overlap > mostWrong) {
		const next = columns
			.map((_, index) => ({ index, wrong: Math.max(...spoken.map((trial) => shareWrong(trial, [...chosen, index]))) }))
			.filter(({ index }) => !chosen.includes(index))
			.sort((x, y) => x.wrong - y.wrong || x.index - y.index)[0];
		if (!next || next.wrong > overlap) break;
		chosen.push(next.index);
		overlap = next.wrong;
	}
	return { by: chosen.map((index) => columns[index].check.id).join(', '), overlap };
}

/** A sampled machine's readings: how likely each is on each row of its own fault, itself left out, and of the other. */
interface Trial {
	readonly own: readonly Float64Array[];
	readonly other: readonly Float64Array[];
}

function trials(pack: Pack, table: EvidenceTable, columns: readonly ColumnFacts[], truth: number, other: number): Trial[] {
	const { from, to } = tableFacts(pack, table);
	const count = to[truth] - from[truth];
	const tried = Math.min(machinesTried, count);
	return Array.from({ length: tried }, (_, i) => {
		const row = from[truth] + Math.floor(((i + 0.5) * count) / tried);
		const speaks = (facts: ColumnFacts, fault: number) => {
			const { check, column } = facts;
			const reading = read(pack, check, column.values[row], chance(row, 'separable', check.id, column.demand)).value;
			const rows = Array.from({ length: to[fault] - from[fault] }, (_, r) => from[fault] + r).filter((r) => r !== row);
			return Float64Array.from(rows, (r) => readingLikelihood(facts, reading, column.values[r], column.smoothing[fault]));
		};
		return { own: columns.map((facts) => speaks(facts, truth)), other: columns.map((facts) => speaks(facts, other)) };
	});
}

/** Share of trials whose readings under these columns speak more for the other fault. */
function shareWrong(tried: readonly Trial[], columns: readonly number[]): number {
	const mean = (likelihoods: readonly Float64Array[]) => {
		const { length } = likelihoods[0];
		let sum = 0;
		for (let row = 0; row < length; row++) sum += columns.reduce((product, c) => product * likelihoods[c][row], 1);
		return sum / length;
	};
	return tried.filter(({ own, other }) => mean(own) < mean(other)).length / tried.length;
}
