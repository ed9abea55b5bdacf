/** What the machines of the evidence table that have one fault read at one check. */
import { cannotTell, type Direction } from '#shared/callout/prediction.ts';
import { bandOf } from '#shared/callout/take-check.ts';
import { tableFacts, type ColumnFacts } from '#shared/diagnosis/column-facts.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';
import { atTimes, mostly, usualShare } from './gap-weights.ts';
import { bandWords, shownAs } from './sound-band.ts';

/** One machine's true value and its share of all those of its fault; shares sum to 1. */
interface Machine {
	readonly value: number;
	readonly share: number;
}

export interface Usual {
	/** What most of them read: `46.1 to 52.3 degC`, `cold, at times tepid`. */
	readonly says: string;
	/** What most of them read, as a prediction names it; `cannot-tell` where they differ. */
	readonly reads: string;
	/** Share of them that reads each of what can be predicted, but for `cannot-tell`. */
	readonly shares: Readonly<Record<string, number>>;
	/** Least and greatest value of the usual span, for a number. */
	readonly from: number;
	readonly to: number;
}

/**
 * What machines with the fault usually read, each counted by how often it is met.
 * @param fault    index into `pack.faults`
 * @param isCured  by work done before: they are sound machines by then
 * @returns null where the table holds no machine with the fault
 */
export function usualOf(pack: Pack, table: EvidenceTable, facts: ColumnFacts, fault: number, isCured: boolean): Usual | null {
	const machines = isCured ? soundOnes(facts) : withFault(pack, table, facts, fault);
	if (machines.length === 0) return null;
	const { check } = facts;
	const shares = check.words ? wordShares(check, check.words, machines) : directionShares(pack, facts, machines);
	const [likeliest, share] = Object.entries(shares).reduce((most, one) => (one[1] > most[1] ? one : most));
	// The span of sound machines is the table's own, so that it is never told in two ways.
	const { from, to } = isCured ? facts.column.healthy : spanOf(machines);
	return {
		says: check.words ? wordsInWords(shares) : bandWords(pack, check, from, to),
		reads: share >= mostly ? likeliest : cannotTell,
		shares,
		from,
		to
	};
}

function withFault(pack: Pack, table: EvidenceTable, { column }: ColumnFacts, fault: number): Machine[] {
	const facts = tableFacts(pack, table);
	const [from, to] = [facts.from[fault], facts.to[fault]];
	const total = table.prior.subarray(from, to).reduce((sum, weight) => sum + weight, 0);
	return Array.from(column.values.subarray(from, to), (value, row) => ({ value, share: table.prior[from + row] / total }));
}

const soundOnes = ({ column }: ColumnFacts): Machine[] =>
	Array.from(column.healthy.values, (value) => ({ value, share: 1 / column.healthy.values.length }));

function wordShares(check: Check, words: NonNullable<Check['words']>, machines: readonly Machine[]): Record<string, number> {
	const shares = words.map(() => 0);
	for (const { value, share } of machines) shares[bandOf(check, value)] += share;
	return Object.fromEntries(words.map(({ word }, band) => [word, shares[band]]));
}

/** Against the band of nine sound appliances in ten, by what the instrument would show. */
function directionShares(pack: Pack, { check, column }: ColumnFacts, machines: readonly Machine[]): Record<string, number> {
	const shares = { lower: 0, 'as-sound': 0, higher: 0 };
	for (const { value, share } of machines) shares[directionOf(pack, check, column.healthy, value)] += share;
	return shares;
}

export function directionOf(pack: Pack, check: Check, { from, to }: ColumnFacts['column']['healthy'], value: number): Direction {
	const shown = shownAs(pack, check, value);
	if (shown < shownAs(pack, check, from)) return 'lower';
	return shown > shownAs(pack, check, to) ? 'higher' : 'as-sound';
}

/** The span that leaves out as many machines below as above. */
function spanOf(machines: readonly Machine[]): { from: number; to: number } {
	const rising = machines.toSorted((a, b) => (a.value === b.value ? 0 : a.value - b.value));
	const left = (1 - usualShare) / 2;
	const at = (share: number) => {
		let sum = 0;
		return (rising.find((machine) => (sum += machine.share) >= share) ?? rising[rising.length - 1]).value;
	};
	return { from: at(left), to: at(1 - left) };
}

/** The words that are read at all often, the oftenest first. */
function wordsInWords(shares: Readonly<Record<string, number>>): string {
	const [[first, share], ...rest] = Object.entries(shares)
		.filter(([, of]) => of >= atTimes)
		.toSorted(([, a], [, b]) => b - a);
	if (rest.length === 0) return first;
	const others = rest.map(([word]) => word);
	return share >= mostly ? `${first}, at times ${others.join(' or ')}` : [first, ...others].join(' or ');
}
