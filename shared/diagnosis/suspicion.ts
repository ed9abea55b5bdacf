/** What the complaint and the readings so far make of each fault and each remedy. */
import type { Pack } from '#shared/scenario/pack.ts';
import { tableFacts } from './column-facts.ts';
import type { EvidenceTable, Suspicion } from './evidence.ts';
import { curedFaults, logLikelihood } from './likelihood.ts';
import type { Evidence } from './likelihood.ts';

/** A proof under the demand complained of: the remedies done by then, and whether the complaint was still there. */
export interface Proof {
	readonly after: readonly string[];
	readonly stillFaulty: boolean;
}

/** Rows that stand for the truth: under this many, belief is widened. */
export const enoughRows = 10;
/** Shares of the spread within a fault that widen the smoothing, tried in turn while too few rows are left. */
const widenings = [0.2, 0.35];
/** A machine whose complaint is another one may still stand for the few of its fault that were not sampled. */
const otherComplaint = 0.002;
/** Chance that what a proof showed was misread. */
const misreadProof = 0.01;
/** Share of the belief before the readings that no reading can take away: nothing is ever certain. */
const neverCertain = 0.005;

/**
 * Suspicion from what was complained of and everything read.
 *
 * Each row's prior, times the chance that its household makes this complaint, times the likelihood of each reading. When fewer than
 * about ten rows carry the weight, the sample has no machine like this one: the smoothing is widened by part of the spread within each
 * fault and, if that is not enough, faults are also weighed reading by reading on their own.
 * @param readings in any order; those of checks that the table lacks say nothing
 */
export function suspicion(
	pack: Pack,
	table: EvidenceTable,
	complaint: string,
	readings: readonly Evidence[],
	proofs: readonly Proof[] = []
): Suspicion {
	const prior = logPrior(pack, table, complaint, proofs);
	let weights = weigh(prior, terms(pack, table, readings, 0));
	let effective = effectiveRows(weights);
	if (effective < enoughRows && readings.length > 0) {
		for (const widening of widenings) {
			weights = weigh(prior, terms(pack, table, readings, widening));
			effective = effectiveRows(weights);
			if (effective >= enoughRows) break;
		}
		if (effective < enoughRows) {
			const alone = readingByReading(pack, table, prior, terms(pack, table, readings, widenings[0]));
			const trust = effective / enoughRows;
			weights = weights.map((weight, row) => trust * weight + (1 - trust) * alone[row]);
		}
	}
	const before = weigh(prior, []);
	weights = weights.map((weight, row) => (1 - neverCertain) * weight + neverCertain * before[row]);
	return summary(pack, table, weights, effective);
}

/** Sums of row weights by fault and by remedy. */
export function summary(pack: Pack, table: EvidenceTable, weights: Float64Array, effective: number): Suspicion {
	const faults = new Float64Array(pack.faults.length);
	for (let row = 0; row < table.rows; row++) faults[table.fault[row]] += weights[row];
	const remedies = Float64Array.from(pack.remedies, (remedy) =>
		pack.faults.reduce((sum, fault, index) => sum + (fault.cured.includes(remedy.id) ? faults[index] : 0), 0)
	);
	return { faults, remedies, weights, effective };
}

function logPrior(pack: Pack, table: EvidenceTable, complaint: string, proofs: readonly Proof[]): Float64Array {
	const bit = 1 << pack.complaints.findIndex((c) => c.id === complaint);
	const shown = new Float64Array(pack.faults.length).fill(1);
	for (const { after, stillFaulty } of proofs) {
		curedFaults(pack, after).forEach((cured, fault) => (shown[fault] *= cured === stillFaulty ? misreadProof : 1));
	}
	return Float64Array.from(table.prior, (prior, row) => {
		const mask = table.complaints[row];
		const chance = (mask & bit) !== 0 ? 1 / countBits(mask) : otherComplaint;
		return Math.log(prior * chance * shown[table.fault[row]]);
	});
}

// A path is weighed again after every action; what one reading says about the rows does not change in between.
const cache = new WeakMap<EvidenceTable, WeakMap<Evidence, Map<number, Float64Array>>>();

function terms(pack: Pack, table: EvidenceTable, readings: readonly Evidence[], widen: number): Float64Array[] {
	let byReading = cache.get(table);
	if (!byReading) cache.set(table, (byReading = new WeakMap()));
	const found: Float64Array[] = [];
	for (const reading of readings) {
		let byWidth = byReading.get(reading);
		if (!byWidth) byReading.set(reading, (byWidth = new Map()));
		let term = byWidth.get(widen);
		if (!term) {
			const made = logLikelihood(pack, table, reading, widen);
			if (!made) continue;
			byWidth.set(widen, (term = made));
		}
		found.push(term);
	}
	return found;
}

const likelihoods = new WeakMap<Float64Array, Float64Array>();

/** Likelihoods from their logarithms. Worked out once for a term, as terms are. */
function likelihoodOf(term: Float64Array): Float64Array {
	let likelihood = likelihoods.get(term);
	if (!likelihood) likelihoods.set(term, (likelihood = term.map(Math.exp)));
	return likelihood;
}

function weigh(prior: Float64Array, logTerms: readonly Float64Array[]): Float64Array {
	const sum = prior.slice();
	for (const term of logTerms) for (let row = 0; row < sum.length; row++) sum[row] += term[row];
	return normalised(sum);
}

/** Logarithms of weights made into weights that sum to 1. */
function normalised(logs: Float64Array): Float64Array {
	let top = -Infinity;
	for (const log of logs) if (log > top) top = log;
	let total = 0;
	for (let row = 0; row < logs.length; row++) total += logs[row] = logs[row] - top < -60 ? 0 : Math.exp(logs[row] - top);
	for (let row = 0; row < logs.length; row++) logs[row] /= total;
	return logs;
}

/**
 * Faults weighed as if readings were independent within a fault: each reading's likelihood averaged over the fault's rows. Within a
 * fault the rows keep their prior shares.
 */
function readingByReading(pack: Pack, table: EvidenceTable, prior: Float64Array, logTerms: readonly Float64Array[]): Float64Array {
	const { from, to } = tableFacts(pack, table);
	const logs = prior.slice();
	const shares = prior.map(Math.exp);
	const each = logTerms.map(likelihoodOf);
	for (let fault = 0; fault < pack.faults.length; fault++) {
		let shared = 0;
		for (const likelihood of each) {
			let sum = 0;
			let weight = 0;
			for (let row = from[fault]; row < to[fault]; row++) {
				sum += shares[row] * likelihood[row];
				weight += shares[row];
			}
			if (weight > 0) shared += Math.log(sum / weight);
		}
		for (let row = from[fault]; row < to[fault]; row++) logs[row] += shared;
	}
	return normalised(logs);
}

function effectiveRows(weights: Float64Array): number {
	let squares = 0;
	for (const weight of weights) squares += weight * weight;
	return 1 / squares;
}

function countBits(mask: number): number {
	let count = 0;
	for (let rest = mask >>> 0; rest !== 0; rest &= rest - 1) count++;
	return count;
}
