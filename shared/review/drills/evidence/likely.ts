/** How likely a reading is on sound machines and with each fault, and where it stands among sound ones. */
import { bandOf } from '#shared/callout/take-check.ts';
import { tableFacts, type ColumnFacts } from '#shared/diagnosis/column-facts.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { healthyLikelihood, logLikelihood } from '#shared/diagnosis/likelihood.ts';
import { bandWords } from '#shared/marking/sound-band.ts';
import { anyOf } from '#shared/quantity/any-of.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';

/** A reading of a column, as shown; for words the number of the band. */
interface Shown {
	readonly facts: ColumnFacts;
	readonly value: number;
}

/** Likelihood of a reading with each fault, all of the fault's machines taken by their prior weight. */
export function likelihoodByFault(pack: Pack, table: EvidenceTable, { facts, value }: Shown): Float64Array {
	const { from, to } = tableFacts(pack, table);
	const { check, demand } = facts.column;
	const logs = logLikelihood(pack, table, { check, demand, value, after: [] });
	return Float64Array.from(from, (start, fault) => {
		let [sum, weight] = [0, 0];
		for (let row = start; logs && row < to[fault]; row++) {
			sum += table.prior[row] * Math.exp(logs[row]);
			weight += table.prior[row];
		}
		return weight > 0 ? sum / weight : 0;
	});
}

export type Stands = 'low' | 'high' | 'within' | 'unclear';

/** How many standard deviations of the instrument beyond every sound machine met a figure must lie to be called low or high. */
const beyond = 2;
/** A reading within what nine sound machines in ten read is called so where sound ones read it at least this share as often as usual. */
const usualShare = 0.1;
/** Words: heard from at least so many sound machines, or from at most so many. */
const common = 0.4;
const rare = 0.12;

/** Where a reading stands among sound machines of the family. What lies between clearly sound and clearly not is `unclear`. */
export function standsAmongSound({ facts, value }: Shown): Stands {
	const { gauge, column } = facts;
	const { healthy } = column;
	if (gauge.bands) {
		const heard = healthyLikelihood(facts, value);
		if (heard >= common) return 'within';
		if (heard > rare) return 'unclear';
		return value < bandAt(gauge.bands, healthy.mean) ? 'low' : 'high';
	}
	const shown = healthy.values.filter((sound) => sound < gauge.over);
	if (shown.length === 0) return Number.isFinite(value) ? 'low' : 'within';
	if (!Number.isFinite(value)) return shown.length === healthy.values.length ? 'high' : 'unclear';
	const [least, most] = [Math.min(...shown), Math.max(...shown)];
	if (value < least - beyond * gauge.sdAt(least)) return 'low';
	// Above every figure there may still be sound machines past the end of the range.
	if (value > most + beyond * gauge.sdAt(most)) return shown.length === healthy.values.length ? 'high' : 'unclear';
	if (value < healthy.from || value > healthy.to) return 'unclear';
	return healthyLikelihood(facts, value) >= usualShare * usualLikelihood(facts) ? 'within' : 'unclear';
}

const usual = new WeakMap<ColumnFacts, number>();
const soundTried = 41;

/** The likelihood that the reading of a middling sound machine has. */
function usualLikelihood(facts: ColumnFacts): number {
	let known = usual.get(facts);
	if (known === undefined) {
		const { values } = facts.column.healthy;
		const step = Math.max(1, Math.floor(values.length / soundTried));
		const found = values
			.filter((_, index) => index % step === 0)
			.map((value) => healthyLikelihood(facts, value))
			.sort();
		known = found[found.length >> 1] ?? 0;
		usual.set(facts, known);
	}
	return known;
}

const bandAt = (bounds: readonly number[], value: number): number => bounds.filter((bound) => value >= bound).length;

/** What nine sound machines in ten read, in the check's own words. */
export function soundWords(pack: Pack, { check, column }: ColumnFacts): string {
	return bandWords(pack, check, column.healthy.from, column.healthy.to);
}

/** What most machines with the fault read: the middle six in ten, so that a few that do something else do not stretch it. */
export function faultWords(pack: Pack, table: EvidenceTable, { check, column }: ColumnFacts, fault: number): string {
	const { from, to } = tableFacts(pack, table);
	const sorted = column.values.slice(from[fault], to[fault]).sort();
	if (check.words) return wordsMet(check, sorted);
	const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))];
	return bandWords(pack, check, at(0.2), at(0.8));
}

/** From at least so many of a fault's machines a word is one of those that it gives. */
const usualWord = 0.2;

function wordsMet(check: Check, values: Float32Array): string {
	const met = (check.words ?? []).map(({ word }, band) => ({
		word,
		share: values.filter((v) => bandOf(check, v) === band).length / values.length
	}));
	return anyOf(met.flatMap(({ word, share }) => (share >= usualWord ? [word] : [])));
}

/** Columns that a drill may ask about: what the customer is asked is of the household and not of the appliance. */
export const columnsAsked = (pack: Pack, table: EvidenceTable): readonly ColumnFacts[] =>
	tableFacts(pack, table).all.filter(({ check }) => check.way !== 'ask');
