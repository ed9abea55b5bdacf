/** Likelihood and belief worked out again from the evidence table, by code that shares nothing with the diagnosis but the instruments. */
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { errorSd } from '#shared/quantity/instrument.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Told } from './drilled.ts';

type Reading = Told['readings'][number];

const blunder = 0.015;

const step = 0.01;
/** Chance that a normal lies below -8, -7.99, and so on: its density summed up by trapezia. */
const cumulated = (() => {
	const density = (z: number) => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
	const sums = [0];
	for (let i = 1; i <= 16 / step; i++) sums.push(sums[i - 1]! + (step / 2) * (density(-8 + (i - 1) * step) + density(-8 + i * step)));
	return sums;
})();

function below(z: number): number {
	return cumulated[Math.round((Math.max(-8, Math.min(8, z)) + 8) / step)]!;
}

/** How likely the reading is on a machine with this true value; null where the table does not have the check. */
export function likelihoodOn(pack: Pack, table: EvidenceTable, { of, demand, value }: Reading): ((row: number) => number) | null {
	const column = table.columns.find((one) => one.check === of.id && one.demand === demand);
	if (!column) return null;
	const smoothing = (row: number) => column.smoothing[table.fault[row]!]!;
	if (of.words) {
		const bounds = of.words.map(({ below: bound }) => bound ?? Infinity);
		const last = bounds.length - 1;
		const heard = (truth: number) =>
			truth === value
				? 1 - of.misjudged
				: Math.abs(truth - value) === 1
					? truth === 0 || truth === last
						? of.misjudged
						: of.misjudged / 2
					: 0;
		return (row) => {
			const upTo = (bound: number) => {
				const [true_, spread] = [column.values[row]!, smoothing(row)];
				return bound === Infinity ? 1 : spread > 0 ? below((bound - true_) / spread) : true_ < bound ? 1 : 0;
			};
			let [sum, before] = [0, 0];
			bounds.forEach((bound, band) => {
				const now = upTo(bound);
				sum += heard(band) * (now - before);
				before = now;
			});
			return (1 - blunder) * sum + blunder / bounds.length;
		};
	}
	const instrument = pack.instruments.find(({ id }) => id === of.instrument)!;
	const over = instrument.over ?? Infinity;
	const shown = column.values.filter((one) => one < over);
	const reach = Math.max(...shown) - Math.min(...shown) + 6 * errorSd(Math.max(...shown), instrument);
	return (row) => {
		const truth = column.values[row]!;
		if (truth === Infinity) return value === Infinity ? 1 - blunder / 2 : blunder / reach;
		const sd = Math.hypot(errorSd(truth, instrument), smoothing(row));
		if (value === Infinity) return (1 - blunder) * below((truth - over) / sd) + blunder / 2;
		return ((1 - blunder) * Math.exp(-(((value - truth) / sd) ** 2) / 2)) / sd / Math.sqrt(2 * Math.PI) + blunder / reach;
	};
}

/** Likelihood of one reading with each fault. */
export function likelihoodWith(pack: Pack, table: EvidenceTable, reading: Reading): number[] {
	const on = likelihoodOn(pack, table, reading)!;
	const sums = pack.faults.map(() => ({ sum: 0, weight: 0 }));
	for (let row = 0; row < table.rows; row++) {
		const of = sums[table.fault[row]!]!;
		of.sum += table.prior[row]! * on(row);
		of.weight += table.prior[row]!;
	}
	return sums.map(({ sum, weight }) => (weight > 0 ? sum / weight : 0));
}

/** Belief in each fault from a complaint and readings, by multiplying through. */
export function beliefIn(pack: Pack, table: EvidenceTable, { complaint, readings }: Told): number[] {
	const number = pack.complaints.indexOf(complaint);
	const weights = Array.from(table.prior, (prior, row) => {
		const fitting = pack.complaints.filter((_, bit) => (table.complaints[row]! >>> bit) & 1).length;
		return (table.complaints[row]! >>> number) & 1 ? prior / fitting : prior * 0.002;
	});
	for (const reading of readings) {
		const on = likelihoodOn(pack, table, reading);
		if (on) weights.forEach((weight, row) => (weights[row] = weight * on(row)));
	}
	const total = weights.reduce((sum, weight) => sum + weight, 0);
	const faults = pack.faults.map(() => 0);
	weights.forEach((weight, row) => (faults[table.fault[row]!]! += weight / total));
	return faults;
}
