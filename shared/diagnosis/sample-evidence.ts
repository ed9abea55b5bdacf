/**
 * Makes the evidence table of a pack, a part at a time, so that workers can share the work.
 *
 * Machines are drawn from the population that callouts are drawn from, so that belief knows the very distribution it is tested on.
 * Severities are spread evenly over each fault's span by the golden ratio's sequence, whichever of them are turned away.
 */
import type { Demand } from '#shared/appliance/model.ts';
import { fittingComplaints, runsOf } from '#shared/callout/complaints.ts';
import { priorWeight, sampleMachine } from '#shared/callout/sample-machine.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { standardDeviation } from './column-facts.ts';
import { columnsOf, trueValue } from './columns.ts';
import type { Column, EvidenceTable } from './evidence.ts';

/** Machines kept of each fault, and healthy ones: some 8,000 rows for three dozen faults. */
export const machinesPerFault = 220;
/** Draws allowed for each machine kept; of a fault that seldom brings a complaint fewer are kept. */
const drawsPerMachine = 5;
/** The seed of every table: a pack has one table, whoever makes it. */
export const evidenceSeed = 20_260_000;

/** Machines of one fault, or healthy ones. */
export interface EvidencePart {
	/** Index into `pack.faults`; -1 for healthy machines. */
	readonly fault: number;
	/** Machines drawn to find these; the rest would have brought no complaint. */
	readonly drawn: number;
	/** Rising. */
	readonly severity: Float32Array;
	readonly complaints: Uint32Array;
	/** Facts of each row's household. */
	readonly facts: readonly (readonly string[])[];
	/** Values of each column, in the order of `columnsOf`. */
	readonly values: readonly Float32Array[];
}

interface Row {
	readonly severity: number;
	readonly complaints: number;
	readonly facts: readonly string[];
	readonly values: readonly number[];
}

const goldenRatio = (Math.sqrt(5) - 1) / 2;

/**
 * Machines of one fault that somebody would complain of, with the true value of every check.
 * @param fault    index into `pack.faults`; -1 for healthy machines, of which nobody need complain
 * @param machines how many to keep at most, >= 1
 */
export function sampleFault(pack: Pack, fault: number, machines: number, seed: number): EvidencePart {
	const columns = columnsOf(pack);
	const kept: Row[] = [];
	let drawn = 0;
	while (kept.length < machines && drawn < machines * drawsPerMachine) {
		const row = drawRow(pack, columns, fault, drawn, seed);
		drawn++;
		if (row.complaints !== 0 || fault < 0) kept.push(row);
	}
	kept.sort((a, b) => a.severity - b.severity);
	return {
		fault,
		drawn,
		severity: Float32Array.from(kept, (row) => row.severity),
		complaints: Uint32Array.from(kept, (row) => row.complaints),
		facts: kept.map((row) => row.facts),
		values: columns.map((_, index) => Float32Array.from(kept, (row) => row.values[index]))
	};
}

function drawRow(pack: Pack, columns: ReturnType<typeof columnsOf>, fault: number, draw: number, seed: number): Row {
	const hidden = fault < 0 ? null : pack.faults[fault];
	const share = (0.5 + draw * goldenRatio) % 1;
	const severity = hidden ? hidden.severity.from + share * (hidden.severity.to - hidden.severity.from) : 0;
	const machine = sampleMachine(pack, seed + fault, { fault: hidden ? hidden.id : 'none', severity, home: draw });
	const run = runsOf((demand: Demand) => pack.model.settle(machine.faulty, demand));
	const fits = hidden ? fittingComplaints(pack, run) : [];
	const complaints = fits.reduce((mask, complaint) => mask | (1 << pack.complaints.indexOf(complaint)), 0) >>> 0;
	const facts = machine.household.facts;
	if (hidden && complaints === 0) return { severity, complaints, facts, values: [] };
	return { severity, complaints, facts, values: columns.map(({ check, demand }) => trueValue(check, run(demand), facts)) };
}

/**
 * The table from the parts of all faults and the healthy part, in any order.
 * @throws RangeError where a fault's part, or the healthy one, is missing
 */
export function joinEvidence(pack: Pack, parts: readonly EvidencePart[]): EvidenceTable {
	const find = (fault: number) => {
		const part = parts.find((p) => p.fault === fault);
		if (!part) throw new RangeError(`evidence lacks the part of ${fault < 0 ? 'healthy machines' : pack.faults[fault].id}`);
		return part;
	};
	const healthy = find(-1);
	const ordered = pack.faults.map((_, fault) => find(fault));
	const rows = ordered.reduce((sum, part) => sum + part.severity.length, 0);
	return {
		packHash: pack.hash,
		rows,
		fault: Uint16Array.from(ordered.flatMap((part) => Array.from(part.severity, () => part.fault))),
		severity: Float32Array.from(ordered.flatMap((part) => [...part.severity])),
		prior: priors(pack, ordered),
		complaints: Uint32Array.from(ordered.flatMap((part) => [...part.complaints])),
		columns: columnsOf(pack).map(({ check, demand }, index) => ({
			check: check.id,
			demand,
			values: Float32Array.from(ordered.flatMap((part) => [...part.values[index]])),
			smoothing: Float32Array.from(ordered, (part) => smoothingOf(part.values[index])),
			healthy: healthyBand(healthy.values[index])
		}))
	};
}

/**
 * Prior weight of each row, summing to 1. A callout draws its household first and then a fault that this household would complain of, so
 * the fault's weight is a share of all weights there, each times how often the fault brings a complaint at all.
 */
function priors(pack: Pack, parts: readonly EvidencePart[]): Float64Array {
	const complained = parts.map((part) => (part.drawn > 0 ? part.severity.length / part.drawn : 0));
	const total = (facts: readonly string[]) =>
		pack.faults.reduce((sum, fault, index) => sum + priorWeight(fault, facts) * complained[index], 0);
	const raw = parts.flatMap((part) => part.facts.map((facts) => priorWeight(pack.faults[part.fault], facts) / total(facts) / part.drawn));
	const sum = raw.reduce((a, b) => a + b, 0);
	return Float64Array.from(raw, (weight) => weight / sum);
}

/** Share of the spread between neighbours that is smoothed over: set so that belief is calibrated (tests/core/diagnosis/calibration.test.ts). */
const smoothingShare = 0.85;

/**
 * Smoothing of a column within one fault: part of the spread between rows of neighbouring severity, by its median, so that a column
 * which switches (lit or not) is not smeared over its switching.
 */
function smoothingOf(values: Float32Array): number {
	const steps: number[] = [];
	for (let i = 1; i < values.length; i++) {
		const step = Math.abs(values[i] - values[i - 1]);
		if (Number.isFinite(step)) steps.push(step);
	}
	if (steps.length === 0) return 0;
	steps.sort((a, b) => a - b);
	// Median of |difference of two normals| is 0.954 standard deviations of one.
	return (smoothingShare * steps[steps.length >> 1]) / 0.954;
}

function healthyBand(values: Float32Array): Column['healthy'] {
	const sorted = values.filter((value) => Number.isFinite(value)).sort();
	if (sorted.length === 0) return { mean: Infinity, sd: 0, from: Infinity, to: Infinity, values };
	const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))];
	const mean = sorted.reduce((sum, value) => sum + value, 0) / sorted.length;
	return { mean, sd: standardDeviation(sorted), from: at(0.05), to: at(0.95), values };
}

/** The whole table made in one go, for those who can wait. */
export function makeEvidence(pack: Pack, machines = machinesPerFault): EvidenceTable {
	const parts = Array.from({ length: pack.faults.length + 1 }, (_, i) => sampleFault(pack, i - 1, machines, evidenceSeed));
	return joinEvidence(pack, parts);
}
